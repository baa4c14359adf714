//go:build !linux && !darwin

package file

import "errors"

func exchange(string, string) error { return errors.ErrUnsupported }

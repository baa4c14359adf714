package worked

import (
	"math"
	"reflect"
	"testing"
)

// Finite fails the test where a value has a number in it, at any depth, that is not
// a number or infinite.
func Finite(t testing.TB, value any) {
	t.Helper()
	if at, bad := infinite(reflect.ValueOf(value), "value"); bad {
		t.Fatalf("%s is not finite in %+v", at, value)
	}
}

func infinite(v reflect.Value, at string) (string, bool) {
	switch v.Kind() {
	case reflect.Float64:
		return at, math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0)
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return infinite(v.Elem(), at)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if at, bad := infinite(v.Field(i), at+"."+v.Type().Field(i).Name); bad {
				return at, true
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if at, bad := infinite(v.Index(i), at+"[]"); bad {
				return at, true
			}
		}
	}
	return at, false
}

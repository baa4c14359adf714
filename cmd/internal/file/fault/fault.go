// Package fault has a disk for tests that fails, or on which the program dies, at
// a chosen call.
package fault

import (
	"errors"
	"io/fs"
	"os"
	"time"

	"stabile/cmd/internal/file"
)

// ErrDead is what a program that has died would not live to see.
var ErrDead = errors.New("dead")

// A Disk passes calls on to the system's until one of them.
type Disk struct {
	// At is the number of the call, from 1 on, that does not succeed; 0 for none.
	At int

	// Err is the error of that call. Without one the program dies: neither this
	// call nor any after it is carried out.
	Err error

	NoLinks    bool // the disk has no hard links
	NoExchange bool // its folders do not change places at once

	Slow time.Duration // before each call

	Calls int // so far
	dead  bool
}

var system file.System

// step counts a call that changes something, and returns its error.
func (d *Disk) step() error {
	time.Sleep(d.Slow)
	if d.dead {
		return ErrDead
	}
	if d.Calls++; d.Calls == d.At {
		d.dead = d.Err == nil
		if d.dead {
			return ErrDead
		}
		return d.Err
	}
	return nil
}

// Lstat and the other calls that change nothing are not counted.
func (d *Disk) Lstat(path string) (fs.FileInfo, error) {
	if d.dead {
		return nil, ErrDead
	}
	return system.Lstat(path)
}

func (d *Disk) ReadDir(path string) ([]fs.DirEntry, error) {
	if d.dead {
		return nil, ErrDead
	}
	return system.ReadDir(path)
}

func (d *Disk) ReadFile(path string) ([]byte, error) {
	if d.dead {
		return nil, ErrDead
	}
	return system.ReadFile(path)
}

func (d *Disk) Mkdir(path string) error {
	if err := d.step(); err != nil {
		return err
	}
	return system.Mkdir(path)
}

// Create counts as two calls: it may be cut off before the file is there, and
// when half of it is written.
func (d *Disk) Create(path string, mode fs.FileMode, data []byte) error {
	if err := d.step(); err != nil {
		return err
	}
	if err := d.step(); err != nil {
		if errors.Is(err, ErrDead) {
			_ = create(path, mode, data[:len(data)/2])
		}
		return err
	}
	return create(path, mode, data)
}

// create writes a file as the system's disk does, but for the wait until it is down
// on the disk.
func create(path string, mode fs.FileMode, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}

func (d *Disk) Keep(path string, like fs.FileInfo) error {
	if err := d.step(); err != nil {
		return err
	}
	return system.Keep(path, like)
}

func (d *Disk) Link(from, to string) error {
	if err := d.step(); err != nil {
		return err
	}
	if d.NoLinks {
		return errors.ErrUnsupported
	}
	return system.Link(from, to)
}

func (d *Disk) Rename(from, to string) error {
	if err := d.step(); err != nil {
		return err
	}
	return system.Rename(from, to)
}

func (d *Disk) Exchange(a, b string) error {
	if err := d.step(); err != nil {
		return err
	}
	if d.NoExchange {
		return errors.ErrUnsupported
	}
	return system.Exchange(a, b)
}

func (d *Disk) Remove(path string) error {
	if err := d.step(); err != nil {
		return err
	}
	return system.Remove(path)
}

func (d *Disk) Sync(folder string) error {
	if err := d.step(); err != nil {
		return err
	}
	return nil
}

// Lock is the system's: with the program that dies its locks end.
func (d *Disk) Lock(folder string) (func(), error) {
	if d.dead {
		return nil, ErrDead
	}
	return system.Lock(folder)
}

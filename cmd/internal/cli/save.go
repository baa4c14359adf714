package cli

import (
	"context"
	"maps"
	"slices"

	"stabile/cmd/internal/file"
)

// save writes files, all or none, and never over the design or what it brings.
func (c *call) save(ctx context.Context, s file.Set) error {
	s.Guarded = slices.AppendSeq(s.Guarded, maps.Keys(c.sources))
	var disk file.Disk = file.System{}
	if c.disk != nil {
		disk = c.disk
	}
	return file.Write(ctx, disk, s)
}

// named is a file to which the user gave its name.
func named(path string, data []byte) file.Set {
	return file.Set{Files: []file.File{{Path: path, Data: data}}, Named: true}
}

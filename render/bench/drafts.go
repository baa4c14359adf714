package bench

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
)

// drafts are texts that were not saved, kept over a crash or a closed page, in a
// folder of the program's own. A nil one keeps none.
type drafts struct {
	root *os.Root
	of   string // the folder of the designs
}

// An unsaved is a text that was not saved.
type unsaved struct {
	Text string `json:"text"`
	Mark string `json:"mark"` // of the file that it began from
}

func openDrafts(dir, of string) *drafts {
	if dir == "" || os.MkdirAll(dir, 0o700) != nil {
		return nil
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil
	}
	if full, err := filepath.Abs(of); err == nil {
		of = full
	}
	return &drafts{root, of}
}

func (d *drafts) close() {
	if d != nil {
		_ = d.root.Close()
	}
}

// name returns under which name the draft of a design is kept.
func (d *drafts) name(file string) string {
	sum := sha256.Sum256([]byte(d.of + "\x00" + file))
	return hex.EncodeToString(sum[:16]) + ".json"
}

// keep keeps a draft, or forgets it where it is nil.
func (d *drafts) keep(file string, t *unsaved) error {
	if d == nil {
		return nil
	}
	name := d.name(file)
	if t == nil {
		_ = d.root.Remove(name) // there may be none
		return nil
	}
	data, err := json.Marshal(t)
	if err != nil {
		return err
	}
	beside := name + "-" + token()[:8]
	if err = d.root.WriteFile(beside, data, 0o600); err == nil {
		err = d.root.Rename(beside, name)
	}
	if err != nil {
		_ = d.root.Remove(beside)
	}
	return err
}

// find returns the draft of a design, or nil.
func (d *drafts) find(file string) *unsaved {
	if d == nil {
		return nil
	}
	data, err := d.root.ReadFile(d.name(file))
	var t unsaved
	if err != nil || json.Unmarshal(data, &t) != nil {
		return nil
	}
	return &t
}

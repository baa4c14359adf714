package cli

import (
	"fmt"
	"io"
	"runtime/debug"

	"github.com/spf13/pflag"
)

// version prints which version of stabile this is.
func (c *call) version(args []string) (int, error) {
	args, err := parse("version", pflag.NewFlagSet("version", pflag.ContinueOnError), args)
	if err != nil {
		return statusWrong, err
	}
	if len(args) > 0 {
		return statusWrong, misuse("", "version has no arguments, not '%s'", args[0])
	}
	info, _ := debug.ReadBuildInfo()
	return statusWell, printVersion(c.stdout, info)
}

// printVersion prints the module's version and revision and the Go that built
// it. Other settings of the build are left out: they hold paths of the machine.
func printVersion(w io.Writer, info *debug.BuildInfo) error {
	if info == nil {
		_, err := fmt.Fprintln(w, "stabile, version not known")
		return err
	}
	line := "stabile"
	if v := info.Main.Version; v != "" && v != "(devel)" {
		line += " " + v
	} else {
		line += ", built from source"
	}
	setting := make(map[string]string)
	for _, s := range info.Settings {
		setting[s.Key] = s.Value
	}
	if r := setting["vcs.revision"]; r != "" {
		line += ", revision " + r[:min(len(r), 12)]
		if setting["vcs.modified"] == "true" {
			line += " with changes"
		}
	}
	_, err := fmt.Fprintf(w, "%s, %s\n", line, info.GoVersion)
	return err
}

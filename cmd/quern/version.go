package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

// version is the program's version. It goes up with every change of what is
// read out of a talk.
const version = "0.1.0"

// versionCommand prints the version.
func versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "print the version of the program",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			_, err := fmt.Fprintf(cmd.OutOrStdout(), "quern %s%s (%s, %s/%s)\n", version, revision(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
			return err
		},
	}
}

// revision gives the first letters of the commit the program was built from,
// "" where the build doesn't know.
func revision() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 12 {
			return " " + s.Value[:12]
		}
	}
	return ""
}

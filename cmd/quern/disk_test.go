package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"sync"

	"github.com/rogpeppe/go-internal/testscript"
)

// bound runs a program so that the permissions of files hold for it, also where
// tests run as root: root without its capabilities is an owner like any other.
var bound = []string{"setpriv", "--bounding-set=-all", "--inh-caps=-all"}

// ordered runs a program for which the permissions of files hold, and wants a
// certain exit code: ordered CODE PROGRAM ARG….
func ordered(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("use: ordered CODE PROGRAM ARG…")
	}
	if os.Geteuid() == 0 {
		args = append(append([]string{args[0]}, bound...), args[1:]...)
	}
	exits(ts, false, args)
}

// mounts reports whether a person without rights may mount a file system for a
// program and what it starts, as most Linux systems allow. Where that's
// forbidden the scripts that want it are skipped, in CI too: it is the
// machine's owner who decides.
var mounts = sync.OnceValue(func() bool {
	if runtime.GOOS != "linux" {
		return false
	}
	dir, err := os.MkdirTemp("", "quern-mount")
	if err != nil {
		return false
	}
	defer os.Remove(dir)
	return exec.Command("unshare", "--user", "--map-root-user", "--mount", "mount", "-t", "tmpfs", "-o", "size=16k", "quern", dir).Run() == nil
})

// permissions reports whether file permissions can be made to hold.
var permissions = sync.OnceValue(func() bool {
	switch {
	case runtime.GOOS == "windows":
		return false
	case os.Geteuid() != 0:
		return true
	}
	return exec.Command(bound[0], append(bound[1:], "true")...).Run() == nil
})

// diskCondition answers the conditions of scripts about disks: [mounts] and
// [permissions].
func diskCondition(name string) (bool, error) {
	switch name {
	case "mounts":
		return mounts(), nil
	case "permissions":
		if !permissions() && runtime.GOOS == "linux" && os.Getenv("CI") == "true" {
			return false, errors.New("wants the program setpriv (util-linux), which lets permissions hold for root")
		}
		return permissions(), nil
	}
	return false, fmt.Errorf("no such condition as [%s]", name)
}

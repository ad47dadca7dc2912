//go:build unix

package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
)

// onTerminal runs the program with standard error on a pseudo-terminal and
// gives what a person would see there.
func onTerminal(t *testing.T, args ...string) string {
	t.Helper()
	screen, tty, err := pty.Open()
	if err != nil {
		t.Skipf("wants a pseudo-terminal: %v", err)
	}
	defer screen.Close()
	var out bytes.Buffer
	if code := run(args, strings.NewReader(""), &out, tty); code != exitDone {
		t.Errorf("exit code %d", code)
	}
	if strings.Contains(out.String(), "\x1b") {
		t.Errorf("standard output is no terminal, yet it has colours: %q", out.String())
	}
	if err := tty.Close(); err != nil {
		t.Fatal(err)
	}
	// Reading a pseudo-terminal whose other end is closed ends with an
	// error on Linux; what came before is whole.
	seen, _ := io.ReadAll(screen)
	return string(seen)
}

func TestColourOnlyOnATerminal(t *testing.T) {
	t.Setenv("TERM", "xterm")
	t.Setenv("NO_COLOR", "")
	if seen := onTerminal(t, "extract", "--example"); !strings.Contains(seen, "\x1b[") {
		t.Errorf("no colour on a terminal: %q", seen)
	}
	t.Setenv("NO_COLOR", "1")
	if seen := onTerminal(t, "extract", "--example"); strings.Contains(seen, "\x1b[") {
		t.Errorf("colour in spite of NO_COLOR: %q", seen)
	}
	t.Setenv("NO_COLOR", "")
	t.Setenv("TERM", "dumb")
	if seen := onTerminal(t, "extract", "--example"); strings.Contains(seen, "\x1b[") {
		t.Errorf("colour on a dumb terminal: %q", seen)
	}
	var errOut bytes.Buffer
	t.Setenv("TERM", "xterm")
	if run([]string{"extract", "--example"}, strings.NewReader(""), io.Discard, &errOut); strings.Contains(errOut.String(), "\x1b[") {
		t.Errorf("colour in a file: %q", errOut.String())
	}
}

// TestCtrlCWhileWaiting presses Ctrl-C while the program waits for standard
// input: it ends at once, says so, and leaves no file.
func TestCtrlCWhileWaiting(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	in, feed, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer feed.Close()
	defer in.Close()
	cmd := exec.Command(self, "-test.run=^TestHelperRunsQuern$")
	cmd.Env = append(os.Environ(), "QUERN_TEST_FOLDER="+dir)
	cmd.Stdin = in
	var errOut bytes.Buffer
	cmd.Stderr = &errOut
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	// The program has set up its signals when the first transcript, which
	// comes before standard input, has been told of.
	deadline := time.Now().Add(20 * time.Second)
	for {
		if _, err := os.Stat(dir + "/ready"); err == nil {
			break
		}
		if time.Now().After(deadline) {
			t.Fatal("the program never began")
		}
		time.Sleep(10 * time.Millisecond)
	}
	if err := cmd.Process.Signal(syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	err = cmd.Wait()
	if code := cmd.ProcessState.ExitCode(); code != exitFailed {
		t.Errorf("exit code %d (%v), want %d", code, err, exitFailed)
	}
	if !strings.Contains(errOut.String(), "stopped") {
		t.Errorf("standard error tells %q, want that it was stopped", errOut.String())
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if e.Name() != "ready" {
			t.Errorf("%s was left behind", e.Name())
		}
	}
}

// readySignal is a writer that notes in a file that it was written to.
type readySignal struct{ folder string }

func (r readySignal) Read(p []byte) (int, error) {
	if err := os.WriteFile(r.folder+"/ready", nil, 0o600); err != nil {
		return 0, err
	}
	return os.Stdin.Read(p)
}

// TestHelperRunsQuern is the program that TestCtrlCWhileWaiting stops.
func TestHelperRunsQuern(t *testing.T) {
	folder := os.Getenv("QUERN_TEST_FOLDER")
	if folder == "" {
		t.Skip("runs only as a part of TestCtrlCWhileWaiting")
	}
	os.Exit(run([]string{"extract", "-", "-o", folder + "/bars.yaml"}, readySignal{folder}, os.Stdout, os.Stderr))
}

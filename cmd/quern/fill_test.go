package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
)

const twoUnsaid = `# My bars
recipe: 1
title: Oat bars
source:
  file: talk.md
  format: bracket
  sha256: ""
yield: 16 bars
ingredients:
  - id: rolled-oats
    name: rolled oats
    amount: null # ask Ana
    said:
      - {at: "00:01:04.000", quote: "in go the oats"}
  - id: honey
    name: honey
    amount: null
    said:
      - {at: "00:01:31.000", quote: "then the honey"}
steps: []
`

// screen is a program in a terminal of its own.
type screen struct {
	t    *testing.T
	pty  *os.File
	cmd  *exec.Cmd
	mu   sync.Mutex
	seen bytes.Buffer
	read int // how much of seen was looked through
	done chan struct{}
}

func onScreen(t *testing.T, dir string, args ...string) *screen {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("wanted a Unix pseudo-terminal")
	}
	s := &screen{t: t, cmd: exec.Command("quern", args...), done: make(chan struct{})}
	s.cmd.Dir = dir
	s.cmd.Env = append(os.Environ(), "TERM=xterm")
	var err error
	if s.pty, err = pty.StartWithSize(s.cmd, &pty.Winsize{Rows: 24, Cols: 100}); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.pty.Close() })
	go func() {
		defer close(s.done)
		buf := make([]byte, 4096)
		for {
			n, err := s.pty.Read(buf)
			s.mu.Lock()
			s.seen.Write(buf[:n])
			s.mu.Unlock()
			if err != nil {
				return // Linux gives EIO at the end
			}
		}
	}()
	return s
}

// see waits until a text is on the screen, after what was seen before.
func (s *screen) see(text string) {
	s.t.Helper()
	for end := time.Now().Add(20 * time.Second); ; time.Sleep(5 * time.Millisecond) {
		s.mu.Lock()
		all := s.seen.String()
		s.mu.Unlock()
		if i := strings.Index(all[s.read:], text); i >= 0 {
			s.read += i + len(text)
			return
		}
		if time.Now().After(end) {
			s.t.Fatalf("%q never came; the screen:\n%s", text, all)
		}
	}
}

func (s *screen) key(keys string) {
	s.t.Helper()
	if _, err := s.pty.WriteString(keys); err != nil {
		s.t.Fatal(err)
	}
}

// ends waits for the program and gives its exit code.
func (s *screen) ends() int {
	s.t.Helper()
	err := s.cmd.Wait()
	<-s.done
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		s.t.Fatal(err)
	}
	return s.cmd.ProcessState.ExitCode()
}

func barsFile(t *testing.T) (dir, path string) {
	dir = t.TempDir()
	path = filepath.Join(dir, "bars.yaml")
	for name, text := range map[string]string{"bars.yaml": twoUnsaid,
		"talk.md": "[1:00] So in go the oats.\n\n[1:31] And then the honey, the runny one.\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir, path
}

func text(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestFillInATerminal(t *testing.T) {
	dir, path := barsFile(t)
	s := onScreen(t, dir, "fill", "bars.yaml")
	s.see("2 open flags in bars.yaml")
	s.see(strong)
	s.see("rolled oats?" + normal)
	s.see(`"in go the oats"`)
	s.see("> ")
	s.key("lots\r")
	s.see("lots")
	s.see("it takes an amount, such as 225 g")
	s.see("> ")
	s.key("3 cu\x7fups\r") // a slip rubbed out
	s.see("2/2  1:31")
	s.see("honey?")
	s.see("> ")
	if got := text(t, path); !strings.Contains(got, "amount: 3 cups # ask Ana") {
		t.Errorf("the first answer is not in the file while the second is asked:\n%s", got)
	}
	s.key("?\r")
	s.see("… And then the honey, the runny one. …")
	s.key("?\r")
	s.see("… So in go the oats. And then the honey, the runny one. …")
	s.see("> ")
	s.key("\r")
	s.see("bars.yaml: 1 open flag")
	if code := s.ends(); code != exitDone {
		t.Errorf("exit code %d", code)
	}
	if text(t, path+"~") != twoUnsaid {
		t.Error("the file before is not kept")
	}
}

func TestFillStoppedByCtrlC(t *testing.T) {
	dir, path := barsFile(t)
	s := onScreen(t, dir, "fill", "bars.yaml")
	s.see("> ")
	s.key("3 cups\r")
	s.see("honey?")
	s.see("> ")
	s.key("2 tb\x03")
	if code := s.ends(); code != exitFailed {
		t.Errorf("exit code %d", code)
	}
	got := text(t, path)
	if !strings.Contains(got, "amount: 3 cups # ask Ana") || strings.Contains(got, "2 tb") {
		t.Errorf("after Ctrl-C the file is\n%s", got)
	}
}

func TestFillEndedByCtrlD(t *testing.T) {
	dir, path := barsFile(t)
	s := onScreen(t, dir, "fill", "bars.yaml")
	s.see("> ")
	s.key("\x04")
	s.see("bars.yaml: 2 open flags")
	if code := s.ends(); code != exitDone {
		t.Errorf("exit code %d", code)
	}
	if !strings.Contains(text(t, path), "amount: null # ask Ana") {
		t.Error("the file changed")
	}
}

// TestFillTellsOfOtherHands lets an editor change the file between a question
// and its answer.
func TestFillTellsOfOtherHands(t *testing.T) {
	dir, path := barsFile(t)
	s := onScreen(t, dir, "fill", "bars.yaml")
	s.see("> ")
	edited := strings.Replace(text(t, path), "title: Oat bars", "title: Oat and plum bars", 1)
	if err := os.WriteFile(path, []byte(edited), 0o644); err != nil {
		t.Fatal(err)
	}
	s.key("3 cups\r")
	s.see("changed by someone else")
	s.see("> ")
	if text(t, path) != edited {
		t.Error("the other edit was written over")
	}
	s.key("3 cups\r")
	s.see("honey?")
	s.key("q\r")
	if code := s.ends(); code != exitDone {
		t.Errorf("exit code %d", code)
	}
	got := text(t, path)
	if !strings.Contains(got, "title: Oat and plum bars") || !strings.Contains(got, "amount: 3 cups # ask Ana") {
		t.Errorf("the file is\n%s", got)
	}
}

// TestFillWithoutColour keeps escape sequences off a terminal that wants none.
func TestFillWithoutColour(t *testing.T) {
	dir, _ := barsFile(t)
	t.Setenv("NO_COLOR", "1")
	s := onScreen(t, dir, "fill", "bars.yaml")
	s.see("> ")
	if err := s.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	if code := s.ends(); code != exitFailed {
		t.Errorf("exit code %d", code)
	}
	if strings.Contains(s.seen.String(), "\x1b") {
		t.Errorf("the screen holds an escape sequence: %q", s.seen.String())
	}
}

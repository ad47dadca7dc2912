package main

import (
	"bytes"
	"encoding/hex"
	"errors"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"quern": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"exits":   exits,
			"bytes":   writeBytes,
			"ordered": ordered,
		},
		Condition: diskCondition,
		Setup: func(env *testscript.Env) error {
			env.Setenv("NO_COLOR", "")
			return nil
		},
	})
}

// exits runs a program and wants a certain exit code: exits CODE PROGRAM ARG….
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("use: exits CODE PROGRAM ARG…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%s: %v", args[1], err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("%s ended with exit code %d, want %d", strings.Join(args[1:], " "), got, want)
	}
}

// writeBytes makes a file of bytes in hexadecimal: bytes FILE HEX….
func writeBytes(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("use: bytes FILE HEX…")
	}
	data, err := hex.DecodeString(strings.Join(args[1:], ""))
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), data, 0o600))
}

func TestNearest(t *testing.T) {
	names := []string{"extract", "read", "check", "version", "help"}
	tests := []struct{ word, want string }{
		{"extrac", "extract"},
		{"exrtact", "extract"},
		{"ext", "extract"},
		{"raed", "read"},
		{"chek", "check"},
		{"versoin", "version"},
		{"bake", ""},
		{"x", ""},
		{"", ""},
		{strings.Repeat("extract", 100), ""},
	}
	for _, tt := range tests {
		if got := nearest(tt.word, names); got != tt.want {
			t.Errorf("nearest(%q) = %q, want %q", tt.word, got, tt.want)
		}
	}
}

func TestShortMoment(t *testing.T) {
	tests := []struct{ at, want string }{
		{"00:00:00.000", "0:00"},
		{"00:00:07.000", "0:07"},
		{"00:01:31.500", "1:31"},
		{"00:12:05.000", "12:05"},
		{"01:02:03.004", "1:02:03"},
		{"10:00:00.000", "10:00:00"},
		{"", ""},
		{"odd", "odd"},
	}
	for _, tt := range tests {
		if got := shortMoment(tt.at); got != tt.want {
			t.Errorf("shortMoment(%q) = %q, want %q", tt.at, got, tt.want)
		}
	}
}

func TestPrintableKeepsALineALine(t *testing.T) {
	const in = "two\ncups\x1b[31m of\toats \u202Eecir\u2069 ½ brûlée"
	if got, want := printable(in), "two\uFFFDcups\uFFFD[31m of oats \uFFFDecir\uFFFD ½ brûlée"; got != want {
		t.Errorf("printable(%q) = %q, want %q", in, got, want)
	}
}

// brokenWriter stands for a full disk or a closed pipe.
type brokenWriter struct{}

var errFull = errors.New("no space left")

func (brokenWriter) Write([]byte) (int, error) { return 0, errFull }

func TestOutputThatCannotBeWritten(t *testing.T) {
	for _, args := range [][]string{
		{"extract", "--example"},
		{"read", "../../testdata/narrations/ginger-oat-bars.md"},
		{"help"},
		{"help", "extract"},
		{"version"},
	} {
		var errOut bytes.Buffer
		if code := run(args, strings.NewReader(""), brokenWriter{}, &errOut); code != exitFailed {
			t.Errorf("quern %v ends with %d, want %d", args, code, exitFailed)
		}
		if !strings.Contains(errOut.String(), errFull.Error()) {
			t.Errorf("quern %v tells %q, want the reason %q", args, errOut.String(), errFull)
		}
	}
}

func TestSameBytesEveryRun(t *testing.T) {
	var first bytes.Buffer
	for i := range 3 {
		var out, errOut bytes.Buffer
		if code := run([]string{"extract", "--example", "--format", "json"}, strings.NewReader(""), &out, &errOut); code != exitDone {
			t.Fatalf("exit code %d: %s", code, errOut.String())
		}
		if i == 0 {
			first = out
			continue
		}
		if !bytes.Equal(first.Bytes(), out.Bytes()) {
			t.Fatal("two runs give different bytes")
		}
	}
}

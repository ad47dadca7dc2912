package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestStreamUnderParallel spreads a stream with GNU parallel (Debian package
// parallel): cut into blocks, run by several processes and put together in
// order, it gives what one process gives.
func TestStreamUnderParallel(t *testing.T) {
	parallel, err := exec.LookPath("parallel")
	if err == nil {
		// Another program of that name doesn't know this.
		err = exec.Command(parallel, "--minversion", "20130222").Run()
	}
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("this test wants GNU parallel (Debian package parallel)")
		}
		t.Skip("this test wants GNU parallel (Debian package parallel)")
	}
	var in bytes.Buffer
	for i := range 300 {
		line, err := json.Marshal(map[string]string{"name": fmt.Sprintf("talk%03d.md", i),
			"text": fmt.Sprintf("[0:04] Put %d cups of rolled oats in a bowl.\n\n[0:20] Bake it at 350 degrees for twenty minutes.", i+2)})
		if err != nil {
			t.Fatal(err)
		}
		in.Write(append(line, '\n'))
	}
	var want, told bytes.Buffer
	if code := run([]string{"batch", "--stream"}, bytes.NewReader(in.Bytes()), &want, &told); code != exitDone {
		t.Fatalf("one process ends with %d: %s", code, told.String())
	}
	home := t.TempDir()
	quern := filepath.Join(home, "quern") // by this name the test program is quern: see TestMain
	if err := os.Symlink(executable(t), quern); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(parallel, "--will-cite", "--pipe", "--keep-order", "--block", "4k", "--jobs", "3", quern, "batch", "--stream")
	cmd.Env = append(os.Environ(), "HOME="+home)
	cmd.Stdin = &in
	var got, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &got, &stderr
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v: %s", err, stderr.String())
	}
	if lines := strings.Count(want.String(), "\n"); lines != 300 || !bytes.Equal(want.Bytes(), got.Bytes()) {
		t.Errorf("spread over processes it gives %d bytes, in one %d bytes and %d lines; want the same 300 lines", got.Len(), want.Len(), lines)
	}
}

func executable(t *testing.T) string {
	t.Helper()
	path, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	return path
}

package main

import (
	"bufio"
	"bytes"
	"net/http"
	"os"
	"regexp"
	"runtime"
	"strings"
	"testing"
)

// TestReviewServesUntilCtrlC starts a review, looks at its page, and ends it.
func TestReviewServesUntilCtrlC(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("wanted a signal for Ctrl-C")
	}
	dir, _ := barsFile(t)
	run := command(dir, "review", ".")
	out, err := run.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	var told bytes.Buffer
	run.Stderr = &told
	if err := run.Start(); err != nil {
		t.Fatal(err)
	}
	r := bufio.NewReader(out)
	address, err := r.ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	if !regexp.MustCompile(`^http://127\.0\.0\.1:[0-9]+/[0-9a-f]{36}/\n$`).MatchString(address) {
		t.Errorf("the address is %q", address)
	}
	resp, err := http.Get(strings.TrimSpace(address))
	if err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	if _, err := page.ReadFrom(resp.Body); err != nil {
		t.Fatal(err)
	}
	if err := resp.Body.Close(); err != nil {
		t.Fatal(err)
	}
	if resp.StatusCode != http.StatusOK || !strings.Contains(page.String(), "Oat bars") {
		t.Errorf("the list gives %d:\n%s", resp.StatusCode, page.String())
	}
	if err := run.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	rest := new(bytes.Buffer)
	if _, err := rest.ReadFrom(r); err != nil {
		t.Fatal(err)
	}
	if err := run.Wait(); err != nil {
		t.Errorf("it ended with %v", err)
	}
	if rest.Len() > 0 {
		t.Errorf("standard output carries more than the address: %q", rest)
	}
	for _, want := range []string{"open this address in your browser", "everything saved is in the files"} {
		if !strings.Contains(told.String(), want) {
			t.Errorf("standard error lacks %q: %q", want, told.String())
		}
	}
}

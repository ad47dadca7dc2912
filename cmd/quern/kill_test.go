package main

import (
	"bufio"
	"fmt"
	"math/rand"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"

	"quern/internal/merge"
	"quern/schema"
)

// trial is one write that is cut short.
type trial struct {
	dir, path string
	reset     func()                 // puts everything back as it was
	start     func() (run *exec.Cmd) // begins the write
	cleanup   func(run *exec.Cmd)    // after the kill
}

// cutShort runs a write many times and kills it (SIGKILL) at a random moment,
// more and more often about the moment of writing: what was killed too early
// is killed later the next time, and the other way round. Every document on
// disk must be the old one or the new one.
func cutShort(t *testing.T, times int, tr trial) {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("wanted SIGKILL")
	}
	if testing.Short() {
		times /= 10
	}
	tr.reset()
	before := text(t, tr.path)
	began := time.Now()
	run := tr.start()
	for text(t, tr.path) == before {
		if time.Since(began) > 20*time.Second {
			t.Fatal("the write never came")
		}
		time.Sleep(time.Millisecond)
	}
	wait := time.Since(began)
	time.Sleep(100 * time.Millisecond)
	kill(t, run)
	tr.cleanup(run)
	after := text(t, tr.path)
	olds, news := 0, 0
	r := rand.New(rand.NewSource(1))
	for i := range times {
		tr.reset()
		run := tr.start()
		time.Sleep(time.Duration(float64(wait) * (0.85 + 0.3*r.Float64())))
		kill(t, run)
		tr.cleanup(run)
		switch got := text(t, tr.path); got {
		case before:
			olds++
			wait += wait / 40
		case after:
			news++
			wait -= wait / 40
		default:
			t.Fatalf("run %d: the document is neither the old nor the new one:\n%s", i, got)
		}
		for _, p := range []string{tr.path, merge.Previous(tr.path), merge.Written(tr.path)} {
			data, err := os.ReadFile(p)
			if os.IsNotExist(err) && p != tr.path {
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			if _, err := schema.ReadAll(p, data); err != nil {
				t.Fatalf("run %d: %s is not whole: %v\n%s", i, p, err, data)
			}
		}
	}
	t.Logf("killed %d times: the old document %d times, the new one %d times", times, olds, news)
}

func kill(t *testing.T, run *exec.Cmd) {
	t.Helper()
	if err := run.Process.Kill(); err != nil && run.ProcessState == nil {
		// It may have ended by itself meanwhile.
		t.Logf("kill: %v", err)
	}
	_ = run.Wait() // killed, or done just before: either is part of the trial
}

func writeFile(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// sweep takes away all but the named files, as reset does between trials.
func sweep(t *testing.T, dir string, keep ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if strings.Contains(" "+strings.Join(keep, " ")+" ", " "+e.Name()+" ") {
			continue
		}
		if err := os.Remove(filepath.Join(dir, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
}

func TestFillKilled(t *testing.T) {
	dir, path := barsFile(t)
	cutShort(t, 100, trial{dir: dir, path: path,
		reset: func() { sweep(t, dir, "talk.md"); writeFile(t, path, twoUnsaid) },
		start: func() *exec.Cmd {
			run := exec.Command("quern", "fill", "bars.yaml", "honey=3 tbsp", "oats=2 cups")
			run.Dir = dir
			if err := run.Start(); err != nil {
				t.Fatal(err)
			}
			return run
		},
		cleanup: func(*exec.Cmd) {},
	})
}

func TestExtractKilled(t *testing.T) {
	dir := t.TempDir()
	talk, path := filepath.Join(dir, "talk.md"), filepath.Join(dir, "bars.yaml")
	const spoken = "# Bars\n\n[0:05] Take two cups of rolled oats and some butter, and stir them together in a bowl.\n\n[0:20] Bake it for twenty minutes at 350 degrees.\n"
	writeFile(t, talk, spoken)
	if out, err := command(dir, "extract", "talk.md", "-o", "bars.yaml").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	written := text(t, merge.Written(path))
	hers := "# Hers\n" + strings.Replace(text(t, path), "amount: 2 cups", "amount: 2 cups # level", 1)
	if !strings.Contains(hers, "# level") {
		t.Fatalf("the oats are not as expected:\n%s", hers)
	}
	cutShort(t, 100, trial{dir: dir, path: path,
		reset: func() {
			sweep(t, dir)
			writeFile(t, talk, spoken+"\n[0:40] And a pinch of salt, stir that in as well.\n")
			writeFile(t, path, hers)
			writeFile(t, merge.Written(path), written)
		},
		start: func() *exec.Cmd {
			run := command(dir, "extract", "talk.md", "-o", "bars.yaml")
			if err := run.Start(); err != nil {
				t.Fatal(err)
			}
			return run
		},
		cleanup: func(*exec.Cmd) {},
	})
	if got := text(t, path); !strings.Contains(got, "# level") || !strings.Contains(got, "# Hers") {
		t.Errorf("her remarks are gone:\n%s", got)
	}
}

func command(dir string, args ...string) *exec.Cmd {
	c := exec.Command("quern", args...)
	c.Dir = dir
	return c
}

var versionOf = regexp.MustCompile(`name="version" value="([0-9a-f]+)"`)
var keyOfHoney = regexp.MustCompile(`name="key-(\d+)" value="([^"]*honey[^"]*)"`)

// TestReviewKilled kills the server in the middle of a page's save.
func TestReviewKilled(t *testing.T) {
	dir, path := barsFile(t)
	client := &http.Client{Timeout: 10 * time.Second, Transport: &http.Transport{DisableKeepAlives: true},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	sent := make(chan struct{}, 1)
	cutShort(t, 100, trial{dir: dir, path: path,
		reset: func() { sweep(t, dir, "talk.md"); writeFile(t, path, twoUnsaid) },
		start: func() *exec.Cmd {
			run := command(dir, "review", "bars.yaml")
			out, err := run.StdoutPipe()
			if err != nil {
				t.Fatal(err)
			}
			if err := run.Start(); err != nil {
				t.Fatal(err)
			}
			root, err := bufio.NewReader(out).ReadString('\n')
			if err != nil {
				t.Fatal(err)
			}
			address := strings.TrimSpace(root) + "recipe/0/0"
			resp, err := client.Get(address)
			if err != nil {
				t.Fatal(err)
			}
			var page strings.Builder
			if _, err := bufio.NewReader(resp.Body).WriteTo(&page); err != nil {
				t.Fatal(err)
			}
			if err := resp.Body.Close(); err != nil {
				t.Fatal(err)
			}
			version, key := versionOf.FindStringSubmatch(page.String()), keyOfHoney.FindStringSubmatch(page.String())
			if version == nil || key == nil {
				t.Fatalf("the page holds no question about honey:\n%s", page.String())
			}
			form := url.Values{"version": {version[1]}, "key-" + key[1]: {key[2]}, "answer-" + key[1]: {"3 tbsp"}}
			req, err := http.NewRequest(http.MethodPost, address, strings.NewReader(form.Encode()))
			if err != nil {
				t.Fatal(err)
			}
			req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			req.Header.Set("Origin", fmt.Sprintf("%s://%s", req.URL.Scheme, req.URL.Host))
			go func() {
				// The server is killed under this request: an error is what is wanted.
				if resp, err := client.Do(req); err == nil {
					_ = resp.Body.Close()
				}
				sent <- struct{}{}
			}()
			return run
		},
		cleanup: func(*exec.Cmd) { <-sent },
	})
}

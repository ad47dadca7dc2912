package archive

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// childVariable tells a copy of the test program to be a batch: it holds the
// folder, the output folder and the report, between line ends.
const childVariable = "QUERN_TEST_BATCH"

func TestMain(m *testing.M) {
	call, child := os.LookupEnv(childVariable)
	if !child {
		os.Exit(m.Run())
	}
	f := strings.Split(call, "\n")
	if _, err := Run(context.Background(), Options{Folder: f[0], Out: f[1], Reports: f[2:], Version: "2"}); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(0)
}

// TestKilledAndResumed ends a batch with kill -9 at a random moment, a hundred
// times (with -short eight times), and makes the same call again: what is there
// then is what a run in one go leaves, byte for byte. The run has new
// recordings, changed ones, documents with edits to be merged with, and
// reports.
func TestKilledAndResumed(t *testing.T) {
	times := 100
	if testing.Short() {
		times = 8
	}
	in := t.TempDir()
	change := func(round, from, to int) {
		for i := from; i < to; i++ {
			for name, text := range talks {
				text = strings.Replace(text, "wo cups", fmt.Sprintf("wo and a half cups of seeds, %d cups", i+round), 1)
				write(t, filepath.Join(in, fmt.Sprintf("year%d", i%3), fmt.Sprintf("%02d-%s", i, filepath.Base(name))), text)
			}
		}
	}
	change(0, 0, 4)
	base := t.TempDir()
	reports := []string{"report.html", "report.csv", "report.json"}
	call := func(out string) Options {
		o := Options{Folder: in, Out: out, Version: "2"}
		for _, r := range reports {
			o.Reports = append(o.Reports, filepath.Join(out, r))
		}
		return o
	}
	batch(t, call(base))
	for i := range 4 {
		name := filepath.Join(base, fmt.Sprintf("year%d", i%3), fmt.Sprintf("%02d-bars.yaml", i))
		write(t, name, strings.Replace(read(t, name), "title: ", "# tried on a Sunday\ntitle: Her ", 1))
	}
	change(2, 0, 4) // what the talks say is changed
	change(2, 4, 6) // and more are recorded
	whole := t.TempDir()
	copyTree(t, base, whole)
	begin := time.Now()
	if !child(t, call(whole), 0) {
		t.Fatal("a run in one go fails")
	}
	took := time.Since(begin)
	want := tree(t, whole)
	r := rand.New(rand.NewPCG(8, 9))
	killed := 0
	for i := range times {
		out := t.TempDir()
		copyTree(t, base, out)
		begin := time.Now()
		if !child(t, call(out), time.Duration(r.Float64()*float64(took))) {
			killed++
		} else {
			took = time.Since(begin) // the machine had been busy before
		}
		if !child(t, call(out), 0) {
			t.Fatalf("kill %d: the run after it fails", i)
		}
		if diff := cmp.Diff(want, tree(t, out)); diff != "" {
			t.Fatalf("kill %d: resumed differs from a run in one go (-want +got):\n%s", i, diff)
		}
		if err := os.RemoveAll(out); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d of %d runs were ended under way", killed, times)
	if killed < times/4 {
		t.Errorf("only %d of %d runs were ended under way, so little was tested", killed, times)
	}
}

// child runs a batch in a process of its own and kills it after a while, 0 for
// never. It tells whether the batch came to its end.
func child(t *testing.T, opt Options, after time.Duration) bool {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childVariable+"="+strings.Join(append([]string{opt.Folder, opt.Out}, opt.Reports...), "\n"))
	var told strings.Builder
	cmd.Stderr = &told
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if after > 0 {
		time.Sleep(after)
		if err := cmd.Process.Kill(); err != nil && !errors.Is(err, os.ErrProcessDone) {
			t.Fatal(err)
		}
	}
	err := cmd.Wait()
	var exit *exec.ExitError
	if err != nil && (!errors.As(err, &exit) || exit.Exited()) {
		t.Fatalf("%v: %s", err, told.String())
	}
	return err == nil
}

func copyTree(t *testing.T, from, to string) {
	t.Helper()
	err := filepath.WalkDir(from, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(from, p)
		write(t, filepath.Join(to, rel), read(t, p))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

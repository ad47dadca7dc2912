package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write what the commands of the README put out into it")

const (
	home   = "../.." // the folder of go.mod, seen from here
	gap    = "…"     // a line of the README that stands for lines left out
	prompt = "     > "
)

// TestReadme runs every command of the README's console blocks, one after
// another in one folder as a reader would, and wants what the README shows.
// With -update the README shows what came out.
func TestReadme(t *testing.T) {
	wantTool(t, "sh", "a shell")
	path := filepath.Join(home, "README.md")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	for _, folder := range []string{"narrations", "written"} {
		if err := os.CopyFS(filepath.Join(dir, "testdata", folder), os.DirFS(filepath.Join(home, "testdata", folder))); err != nil {
			t.Fatal(err)
		}
	}
	lines := strings.Split(string(data), "\n")
	var renewed []string
	ran := map[string]bool{}
	at := 0
	for _, c := range consoleCommands(lines) {
		renewed = append(renewed, lines[at:c.from]...)
		at = c.to
		shown := lines[c.from:c.to]
		renewed = append(renewed, shown...)
		if strings.Contains(c.text, "parallel ") && !haveParallel(t) {
			continue
		}
		got, err := c.run(dir, shown)
		if err != nil {
			t.Errorf("README.md:%d: %s: %v\n%s", c.from, c.text, err, strings.Join(got, "\n"))
			continue
		}
		for _, name := range commandNames() {
			ran[name] = ran[name] || strings.Contains(c.text, "quern "+name)
		}
		if fits(shown, got) {
			continue
		}
		if !*update {
			t.Errorf("README.md:%d: %s gives something else than is shown (-shown +given); refresh with go test ./cmd/quern -run Readme -update\n%s",
				c.from, c.text, cmp.Diff(shown, got))
			continue
		}
		fresh, err := renew(shown, got)
		if err != nil {
			t.Errorf("README.md:%d: %s: %v", c.from, c.text, err)
			continue
		}
		renewed = append(renewed[:len(renewed)-len(shown)], fresh...)
	}
	renewed = append(renewed, lines[at:]...)
	if *update {
		if err := os.WriteFile(path, []byte(strings.Join(renewed, "\n")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range commandNames() {
		// What the first prints is new with every build, and the second
		// serves until it is told to stop.
		if !ran[name] && name != "version" && name != "review" {
			t.Errorf("README.md shows no run of quern %s", name)
		}
	}
}

func commandNames() []string {
	var names []string
	for _, c := range commands() {
		names = append(names, c.Name())
	}
	return names
}

// consoleCommand is a command of a console block and the lines [from, to) that
// show what it puts out.
type consoleCommand struct {
	text     string
	from, to int
}

// consoleCommands finds the commands: lines that begin with "$ ", each gone on
// with by lines that begin with "> ", as a shell shows them.
func consoleCommands(lines []string) []consoleCommand {
	var out []consoleCommand
	inside := false
	for i := 0; i < len(lines); i++ {
		switch {
		case !inside:
			inside = lines[i] == "```console"
		case lines[i] == "```":
			inside = false
		case strings.HasPrefix(lines[i], "$ "):
			c := consoleCommand{text: lines[i][2:]}
			for i+1 < len(lines) && strings.HasPrefix(lines[i+1], "> ") {
				i++
				c.text += "\n" + lines[i][2:]
			}
			c.from, c.to = i+1, i+1
			for c.to < len(lines) && lines[c.to] != "```" && !strings.HasPrefix(lines[c.to], "$ ") {
				c.to++
			}
			out = append(out, c)
		}
	}
	return out
}

// run carries the command out and gives the lines it puts out, on both of its
// outputs. Where the lines shown answer a prompt, the same is answered.
func (c consoleCommand) run(dir string, shown []string) ([]string, error) {
	var answers []string
	for _, line := range shown {
		if answer, ok := strings.CutPrefix(line, strings.TrimRight(prompt, " ")); ok {
			answers = append(answers, strings.TrimSpace(answer))
		}
	}
	cmd := exec.Command("sh", "-c", strings.ReplaceAll(c.text, "go run ./cmd/quern", "quern"))
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "NO_COLOR=1", "HOME="+dir)
	out, err := os.CreateTemp(dir, ".out-*")
	if err != nil {
		return nil, err
	}
	defer os.Remove(out.Name())
	defer out.Close()
	if len(answers) == 0 {
		cmd.Stdout, cmd.Stderr = out, out
		err := cmd.Run()
		text, readErr := os.ReadFile(out.Name())
		return textLines(text), errors.Join(err, readErr)
	}
	in, err := cmd.StdinPipe()
	if err != nil {
		return nil, err
	}
	r, w, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	cmd.Stdout, cmd.Stderr = w, w
	err = cmd.Start()
	w.Close()
	if err != nil {
		return nil, err
	}
	var seen bytes.Buffer
	chunk := make([]byte, 4096)
	for {
		n, err := r.Read(chunk)
		seen.Write(chunk[:n])
		if err != nil {
			break
		}
		if !bytes.HasSuffix(seen.Bytes(), []byte("\n"+prompt)) {
			continue
		}
		if len(answers) == 0 {
			in.Close()
			continue
		}
		// What a person types is seen on the screen.
		seen.WriteString(answers[0] + "\n")
		if _, err := io.WriteString(in, answers[0]+"\n"); err != nil {
			break
		}
		answers = answers[1:]
	}
	in.Close()
	return textLines(seen.Bytes()), cmd.Wait()
}

// textLines cuts text into lines without blanks at their ends, which no reader
// sees.
func textLines(text []byte) []string {
	if len(text) == 0 {
		return nil
	}
	lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return lines
}

// pieces cuts the lines shown at the gaps.
func pieces(shown []string) [][]string {
	out := [][]string{nil}
	for _, line := range shown {
		if line == gap {
			out = append(out, nil)
			continue
		}
		out[len(out)-1] = append(out[len(out)-1], line)
	}
	return out
}

// fits tells whether lines are those shown, with one or more lines for each gap.
func fits(shown, got []string) bool {
	parts := pieces(shown)
	first, last := parts[0], parts[len(parts)-1]
	if len(parts) == 1 {
		return slices.Equal(first, got)
	}
	if len(got) < len(first)+len(last) || !slices.Equal(first, got[:len(first)]) || !slices.Equal(last, got[len(got)-len(last):]) {
		return false
	}
	at, end := len(first), len(got)-len(last)
	for _, part := range parts[1 : len(parts)-1] {
		for at++; ; at++ {
			if at+len(part) > end {
				return false
			}
			if slices.Equal(part, got[at:at+len(part)]) {
				break
			}
		}
		at += len(part)
	}
	return at < end
}

// renew gives what to show for lines that no longer fit: as many lines between
// the gaps as before. A piece between two gaps goes where its first line, or
// the first of its lines that is found, stands now; the last piece begins at the
// last line with the same first word.
func renew(shown, got []string) ([]string, error) {
	parts := pieces(shown)
	if len(parts) == 1 {
		return got, nil
	}
	first, last := len(parts[0]), len(parts[len(parts)-1])
	if last > 0 {
		word := firstWord(parts[len(parts)-1][0])
		for i := len(got) - 1; i > first; i-- {
			if word != "" && firstWord(got[i]) == word {
				last = len(got) - i
				break
			}
		}
	}
	if first+last >= len(got) {
		return got, nil
	}
	out := append(slices.Clone(got[:first]), gap)
	at, end := first, len(got)-last
	for _, part := range parts[1 : len(parts)-1] {
		place := -1
		for k, line := range part {
			if i := slices.Index(got[at:end], line); i >= k+1 && strings.TrimSpace(line) != "" {
				place = at + i - k
				break
			}
		}
		if place < 0 || place+len(part) >= end {
			return nil, fmt.Errorf("the lines that begin with %q are not put out any more; choose by hand what to show in their place", part[0])
		}
		out = append(append(out, got[place:place+len(part)]...), gap)
		at = place + len(part)
	}
	return append(out, got[end:]...), nil
}

func firstWord(line string) string {
	word, _, _ := strings.Cut(strings.TrimSpace(line), " ")
	return word
}

func TestFitsAndRenew(t *testing.T) {
	cut := func(s string) []string { return strings.Fields(s) }
	tests := []struct {
		shown, got string
		fits       bool
		renewed    string // "" for an error
	}{
		{"a b", "a b", true, "a b"},
		{"a b", "a c", false, "a c"},
		{"a …", "a b c", true, "a …"},
		{"a …", "a", false, "a"},
		{"a …", "x b", false, "x …"},
		{"… c", "a b c", true, "… c"},
		{"a … c d … f", "a b c d e f", true, "a … c d … f"},
		{"a … c d … f", "a b c x e f", false, "a … c x … f"},
		{"a … c d … f", "a b x d e f", false, "a … x d … f"},
		{"a … c d … f", "a b x y e f", false, ""},
		{"a … f g", "a b c d e f", false, "a … f"},
		{"a … c … e … g", "a b c d e f g", true, "a … c … e … g"},
		{"a … e … c … g", "a b c d e f g", false, ""},
	}
	for _, tt := range tests {
		if got := fits(cut(tt.shown), cut(tt.got)); got != tt.fits {
			t.Errorf("%q fits %q: %t, want %t", tt.got, tt.shown, got, tt.fits)
		}
		got, err := renew(cut(tt.shown), cut(tt.got))
		if (err != nil) != (tt.renewed == "") || err == nil && strings.Join(got, " ") != tt.renewed {
			t.Errorf("%q renewed by %q gives %q, %v; want %q", tt.shown, tt.got, got, err, tt.renewed)
		}
	}
}

// TestPlacesNamed wants every folder and file of the project that the two
// documents name in code or as a link to be there.
func TestPlacesNamed(t *testing.T) {
	place := regexp.MustCompile("`((?:bench|cmd|extract|schema|internal|testdata|\\.ci)(?:/[A-Za-z0-9_.-]+)*)/?`|\\]\\(([^)#:]+)\\)")
	for _, name := range []string{"README.md", "DEVELOPERS.md"} {
		data, err := os.ReadFile(filepath.Join(home, name))
		if err != nil {
			t.Fatal(err)
		}
		found := place.FindAllStringSubmatch(string(data), -1)
		if len(found) == 0 {
			t.Errorf("%s names no place", name)
		}
		for _, m := range found {
			if _, err := os.Stat(filepath.Join(home, m[1]+m[2])); errors.Is(err, fs.ErrNotExist) {
				t.Errorf("%s names %s, which isn't there", name, m[1]+m[2])
			}
		}
	}
}

func haveParallel(t *testing.T) bool {
	t.Helper()
	// Another program of that name doesn't know this.
	if exec.Command("parallel", "--minversion", "20130222").Run() == nil {
		return true
	}
	if os.Getenv("CI") == "true" {
		t.Error("this test wants GNU parallel (Debian package parallel)")
	}
	t.Log("left out what wants GNU parallel (Debian package parallel)")
	return false
}

// wantTool skips a test whose outside program is missing; where CI is true it
// fails.
func wantTool(t *testing.T, tool, what string) {
	t.Helper()
	if _, err := exec.LookPath(tool); err == nil {
		return
	}
	if os.Getenv("CI") == "true" {
		t.Fatalf("this test wants %s (%s)", what, tool)
	}
	t.Skipf("this test wants %s (%s)", what, tool)
}

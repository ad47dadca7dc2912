// Command measure times quern as a whole process and prints Markdown tables: one
// narration against a yardstick, an archive against the same, growth with the
// number and the length of recordings, and a second run over an unchanged
// archive. It builds quern and the yardstick itself and works in a folder of
// its own, which it takes away again.
//
//	go run ./bench/measure [--talks FOLDER] [--counts 1,10,100,1000,10000] [--hours 1,10,100] [--repeat N]
//
// Without --talks the invented narrations under testdata are used. With it, any
// folder of transcripts is: the ones here were measured with 169 recognised
// recordings of the open data of Xu et al. 2020 (arXiv 2005.00706), read from
// spoken.csv by --csv, one sentence a paragraph. Peak memory is what the system
// tells of the process after it has ended (on Linux and macOS).
package main

import (
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"
)

type options struct {
	talks  string
	csv    string
	counts []int
	hours  []int
	repeat int
	keep   bool
}

func main() {
	var opt options
	var counts, hours string
	flag.StringVar(&opt.talks, "talks", "testdata/narrations", "`FOLDER` of transcripts to measure with")
	flag.StringVar(&opt.csv, "csv", "", "`FILE` of marked recordings (recording,row,at,sentence,…) to measure with instead")
	flag.StringVar(&counts, "counts", "1,10,100,1000,10000", "numbers of recordings to grow over, with commas; empty to leave it out")
	flag.StringVar(&hours, "hours", "1,10,100", "lengths of one talk to grow over, in hours, with commas; empty to leave it out")
	flag.IntVar(&opt.repeat, "repeat", 5, "how often the short measurements are made; the middle one counts")
	flag.BoolVar(&opt.keep, "keep", false, "leave the working folder")
	flag.Parse()
	var err error
	if opt.counts, err = numbers(counts); err == nil {
		opt.hours, err = numbers(hours)
	}
	if err == nil {
		err = measure(opt)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "measure:", err)
		os.Exit(1)
	}
}

func numbers(list string) ([]int, error) {
	var out []int
	for _, s := range strings.Split(list, ",") {
		if s == "" {
			continue
		}
		n, err := strconv.Atoi(s)
		if err != nil || n < 1 {
			return nil, fmt.Errorf("%q is no number above 0", s)
		}
		out = append(out, n)
	}
	return out, nil
}

// bench is the working folder and the two programs.
type bench struct {
	options
	dir, quern, yardstick string
	talks                 []talk
}

// talk is one transcript.
type talk struct {
	name, text string
}

func measure(opt options) error {
	dir, err := os.MkdirTemp("", "quern-measure-")
	if err != nil {
		return err
	}
	if !opt.keep {
		defer os.RemoveAll(dir)
	}
	b := &bench{options: opt, dir: dir, quern: filepath.Join(dir, "quern"), yardstick: filepath.Join(dir, "yardstick")}
	for to, from := range map[string]string{b.quern: "./cmd/quern", b.yardstick: "./bench/yardstick"} {
		if out, err := exec.Command("go", "build", "-o", to, from).CombinedOutput(); err != nil {
			return fmt.Errorf("build %s (run this in the folder of go.mod): %w\n%s", from, err, out)
		}
	}
	if b.talks, err = readTalks(opt); err != nil {
		return err
	}
	words := 0
	for _, t := range b.talks {
		words += len(strings.Fields(t.text))
	}
	fmt.Printf("%s/%s, %d processors, %s; %d transcripts, %d words\n\n", runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), runtime.Version(), len(b.talks), words)
	for _, step := range []func() error{b.single, b.each, b.archive, b.growth, b.lengths} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

func readTalks(opt options) ([]talk, error) {
	if opt.csv != "" {
		return readMarked(opt.csv)
	}
	var out []talk
	files, err := os.ReadDir(opt.talks)
	if err != nil {
		return nil, err
	}
	for _, f := range files {
		if !f.Type().IsRegular() {
			continue
		}
		data, err := os.ReadFile(filepath.Join(opt.talks, f.Name()))
		if err != nil {
			return nil, err
		}
		out = append(out, talk{f.Name(), string(data)})
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("%s: no transcripts in it", opt.talks)
	}
	return out, nil
}

// readMarked reads recordings marked a sentence a line as talk with the time
// at each paragraph.
func readMarked(name string) ([]talk, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	head, err := r.Read()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	recording, at, sentence := slices.Index(head, "recording"), slices.Index(head, "at"), slices.Index(head, "sentence")
	if recording < 0 || at < 0 || sentence < 0 {
		return nil, fmt.Errorf("%s: wants the columns recording, at and sentence", name)
	}
	var out []talk
	for {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			return out, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		seconds := 0.0
		for _, part := range strings.Split(row[at], ":") {
			v, err := strconv.ParseFloat(part, 64)
			if err != nil {
				return nil, fmt.Errorf("%s: time %q: %w", name, row[at], err)
			}
			seconds = 60*seconds + v
		}
		id := row[recording] + ".txt"
		if len(out) == 0 || out[len(out)-1].name != id {
			out = append(out, talk{name: id})
		}
		out[len(out)-1].text += fmt.Sprintf("[%d:%02d] %s\n\n", int(seconds)/60, int(seconds)%60, row[sentence])
	}
}

// cost is what a process took.
type cost struct {
	wall, cpu time.Duration
	peak      int64 // bytes, 0 where the system doesn't tell
}

// run runs a program to its end. Exit code 1 of a batch in which a transcript
// failed is an error too: nothing here may fail.
func run(name string, args ...string) (cost, error) {
	cmd := exec.Command(name, args...)
	var told strings.Builder
	cmd.Stderr = &told
	begin := time.Now()
	err := cmd.Run()
	c := cost{wall: time.Since(begin)}
	if err != nil {
		text := told.String()
		return c, fmt.Errorf("%s %s: %w: %s", filepath.Base(name), strings.Join(args[:min(len(args), 4)], " "), err, text[max(0, len(text)-400):])
	}
	c.cpu = cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	c.peak = peak(cmd.ProcessState)
	return c, nil
}

// middle runs the programs in turn, several times, and gives the middle time
// of each.
func (b *bench) middle(calls ...[]string) ([]cost, error) {
	all := make([][]cost, len(calls))
	for range b.repeat {
		for i, call := range calls {
			c, err := run(call[0], call[1:]...)
			if err != nil {
				return nil, err
			}
			all[i] = append(all[i], c)
		}
	}
	out := make([]cost, len(calls))
	for i, list := range all {
		slices.SortFunc(list, func(x, y cost) int { return int(x.wall - y.wall) })
		out[i] = list[len(list)/2]
	}
	return out, nil
}

// files writes transcripts into a fresh folder.
func (b *bench) files(name string, count int, make func(i int) talk) (string, int64, error) {
	dir := filepath.Join(b.dir, name)
	largest := int64(0)
	for i := range count {
		t := make(i)
		p := filepath.Join(dir, t.name)
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			return "", 0, err
		}
		if err := os.WriteFile(p, []byte(t.text), 0o644); err != nil {
			return "", 0, err
		}
		largest = max(largest, int64(len(t.text)))
	}
	return dir, largest, nil
}

// tenMinutes is a talk of 1,800 words: the first narrations in a row.
func (b *bench) tenMinutes() string { return b.spoken(1800) }

// spoken makes a talk of about as many words as wanted out of the transcripts
// in turn, by whole lines; their own times are taken out and new ones, of three
// words a second, put in.
func (b *bench) spoken(words int) string {
	var out strings.Builder
	n := 0
	for {
		for _, t := range b.talks {
			for _, line := range strings.Split(t.text, "\n") {
				if strings.HasPrefix(line, "[") {
					_, line, _ = strings.Cut(line, "]")
				}
				fields := strings.Fields(line)
				if len(fields) == 0 || strings.HasPrefix(line, "#") {
					continue
				}
				if n >= words {
					return out.String()
				}
				s := n / 3
				if s >= 3600 {
					fmt.Fprintf(&out, "[%d:%02d:%02d] %s\n\n", s/3600, s/60%60, s%60, strings.Join(fields, " "))
				} else {
					fmt.Fprintf(&out, "[%d:%02d] %s\n\n", s/60, s%60, strings.Join(fields, " "))
				}
				n += len(fields)
			}
		}
	}
}

// single times one narration of ten minutes, cold.
func (b *bench) single() error {
	dir, _, err := b.files("single", 1, func(int) talk { return talk{"talk.txt", b.tenMinutes()} })
	if err != nil {
		return err
	}
	file := filepath.Join(dir, "talk.txt")
	c, err := b.middle([]string{b.yardstick, file}, []string{b.quern, "extract", file, "--format", "json"}, []string{b.quern, "version"})
	if err != nil {
		return err
	}
	fmt.Printf("One narration of ten minutes (1,800 words), a process each, middle of %d:\n\n", b.repeat)
	fmt.Println("| program | wall time | of the yardstick | CPU time | peak memory |\n| --- | --- | --- | --- | --- |")
	for i, name := range []string{"yardstick", "`quern extract`", "`quern version` (nothing but starting)"} {
		fmt.Printf("| %s | %s | %.3f | %s | %s |\n", name, short(c[i].wall), float64(c[i].wall)/float64(c[0].wall), short(c[i].cpu), megabytes(c[i].peak))
	}
	fmt.Println()
	return nil
}

// modelBytes is the peak memory from which a run is taken to have loaded the
// tagger's model: runs without it stay under 31 MB, those with it take 47 and more.
const modelBytes = 38e6

// each times every transcript in a process of its own against the yardstick,
// and tells for how many of them the tagger is asked.
func (b *bench) each() error {
	dir, _, err := b.files("each", len(b.talks), func(i int) talk { return b.talks[i] })
	if err != nil {
		return err
	}
	type group struct {
		name   string
		limit  float64
		within int
		shares []float64
	}
	groups := []*group{{name: "the tagger isn't asked", limit: 0.25}, {name: "the tagger is asked", limit: 0.6}}
	for _, t := range b.talks {
		file := filepath.Join(dir, t.name)
		yard, err := run(b.yardstick, file)
		if err != nil {
			return err
		}
		c, err := run(b.quern, "extract", file, "--format", "json")
		if err != nil {
			return err
		}
		g := groups[0]
		if c.peak > modelBytes {
			g = groups[1]
		}
		share := float64(c.wall) / float64(yard.wall)
		g.shares = append(g.shares, share)
		if share <= g.limit {
			g.within++
		}
	}
	fmt.Printf("Each of the %d transcripts in a process of its own, once (asked means a peak over %s):\n\n", len(b.talks), megabytes(modelBytes))
	fmt.Println("| where | transcripts | of the yardstick, middle | most | within |\n| --- | --- | --- | --- | --- |")
	for _, g := range groups {
		if len(g.shares) == 0 {
			fmt.Printf("| %s | 0 | | | |\n", g.name)
			continue
		}
		slices.Sort(g.shares)
		fmt.Printf("| %s | %d | %.3f | %.3f | %d at most %.2f |\n", g.name, len(g.shares), g.shares[len(g.shares)/2], g.shares[len(g.shares)-1], g.within, g.limit)
	}
	fmt.Println()
	return nil
}

// archive times all transcripts: the yardstick one after another, quern batch
// new and unchanged.
func (b *bench) archive() error {
	dir, _, err := b.files("archive", len(b.talks), func(i int) talk { return b.talks[i] })
	if err != nil {
		return err
	}
	args := []string{}
	for _, t := range b.talks {
		args = append(args, filepath.Join(dir, t.name))
	}
	yard, err := run(b.yardstick, args...)
	if err != nil {
		return err
	}
	var firsts []cost
	for i := range b.repeat {
		c, err := run(b.quern, "batch", dir, "-o", filepath.Join(b.dir, fmt.Sprintf("archive-out-%d", i)))
		if err != nil {
			return err
		}
		firsts = append(firsts, c)
	}
	slices.SortFunc(firsts, func(x, y cost) int { return int(x.wall - y.wall) })
	first := firsts[len(firsts)/2]
	second, err := run(b.quern, "batch", dir, "-o", filepath.Join(b.dir, "archive-out-0"))
	if err != nil {
		return err
	}
	n := float64(len(b.talks))
	fmt.Printf("All %d transcripts:\n\n| program | wall time | recordings a second | times the yardstick | CPU time | peak memory |\n| --- | --- | --- | --- | --- | --- |\n", len(b.talks))
	for _, r := range []struct {
		name string
		c    cost
	}{{"yardstick", yard}, {fmt.Sprintf("`quern batch` (middle of %d)", b.repeat), first}, {"`quern batch`, nothing changed", second}} {
		fmt.Printf("| %s | %s | %.1f | %.1f | %s | %s |\n", r.name, short(r.c.wall), n/r.c.wall.Seconds(), float64(yard.wall)/float64(r.c.wall), short(r.c.cpu), megabytes(r.c.peak))
	}
	fmt.Println()
	return nil
}

// growth times archives of more and more recordings, each once new, once
// unchanged, once with one recording changed. Reports are drawn each time.
func (b *bench) growth() error {
	if len(b.counts) == 0 {
		return nil
	}
	fmt.Print("Archives of growing size, with the reports as page, table and data:\n\n" +
		"| recordings | new | CPU time a recording | peak memory | nothing changed | of the first | one changed | peak memory |\n" +
		"| --- | --- | --- | --- | --- | --- | --- | --- |\n")
	for _, count := range b.counts {
		make := func(i int) talk {
			t := b.talks[i%len(b.talks)]
			// A word of its own makes each recording another one.
			return talk{fmt.Sprintf("part%03d/%05d-%s", i/100, i, t.name), t.text + fmt.Sprintf("\n\nThat was number %d.\n", i)}
		}
		dir, _, err := b.files(fmt.Sprintf("grow-%d", count), count, make)
		if err != nil {
			return err
		}
		out := dir + "-out"
		call := []string{"batch", dir, "-o", out}
		for _, form := range []string{"html", "csv", "json"} {
			call = append(call, "--report", filepath.Join(out, "report."+form))
		}
		if err := os.MkdirAll(out, 0o755); err != nil {
			return err
		}
		first, err := run(b.quern, call...)
		if err != nil {
			return err
		}
		second, err := run(b.quern, call...)
		if err != nil {
			return err
		}
		t := make(count / 2)
		if err := os.WriteFile(filepath.Join(dir, t.name), []byte(t.text+"\nAdd a teaspoon of salt.\n"), 0o644); err != nil {
			return err
		}
		third, err := run(b.quern, call...)
		if err != nil {
			return err
		}
		fmt.Printf("| %d | %s | %s | %s | %s | %.1f%% | %s | %s |\n", count, short(first.wall), short(first.cpu/time.Duration(count)), megabytes(first.peak),
			short(second.wall), 100*float64(second.wall)/float64(first.wall), short(third.wall), megabytes(max(second.peak, third.peak)))
		if err := errors.Join(os.RemoveAll(dir), os.RemoveAll(out)); err != nil {
			return err
		}
	}
	fmt.Println()
	return nil
}

// lengths times one talk, longer and longer.
func (b *bench) lengths() error {
	if len(b.hours) == 0 {
		return nil
	}
	fmt.Print("One talk of growing length (10,800 words an hour):\n\n| hours | size | `quern extract` | CPU time an hour | peak memory | `quern batch` | peak memory | 60 MB and 40 times the size |\n" +
		"| --- | --- | --- | --- | --- | --- | --- | --- |\n")
	for _, hours := range b.hours {
		dir, size, err := b.files(fmt.Sprintf("long-%d", hours), 1, func(int) talk { return talk{"talk.txt", b.spoken(10800 * hours)} })
		if err != nil {
			return err
		}
		single, err := run(b.quern, "extract", filepath.Join(dir, "talk.txt"), "--format", "json")
		if err != nil {
			return err
		}
		folder, err := run(b.quern, "batch", dir, "-o", dir+"-out")
		if err != nil {
			return err
		}
		fmt.Printf("| %d | %s | %s | %s | %s | %s | %s | %s |\n", hours, megabytes(size), short(single.wall), short(single.cpu/time.Duration(hours)), megabytes(single.peak),
			short(folder.wall), megabytes(folder.peak), megabytes(60e6+40*size))
	}
	fmt.Println()
	return nil
}

// short writes a time to three figures.
func short(d time.Duration) string {
	switch {
	case d >= 10*time.Second:
		return fmt.Sprintf("%.1f s", d.Seconds())
	case d >= time.Second:
		return fmt.Sprintf("%.2f s", d.Seconds())
	}
	return fmt.Sprintf("%.1f ms", float64(d)/float64(time.Millisecond))
}

func megabytes(n int64) string {
	if n == 0 {
		return "not told"
	}
	return fmt.Sprintf("%.1f MB", float64(n)/1e6)
}

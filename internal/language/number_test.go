package language

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

func read(t *testing.T, s string) (Number, int, int) {
	t.Helper()
	toks := Words(s)
	n, k := ReadNumber(toks, 0)
	return n, k, len(toks)
}

// The numbers 0 to 9,999 as the npm package number-to-words 1.2.4 writes them
// are read back exactly, with and without "and" after the hundreds.
func TestNumberWordsOfReferenceLibrary(t *testing.T) {
	dir := filepath.Join("..", "..", "testdata", "npm")
	if _, err := os.Stat(filepath.Join(dir, "node_modules", "number-to-words")); err != nil {
		missing(t, "the npm package number-to-words (npm install in testdata/npm)")
	}
	if _, err := exec.LookPath("node"); err != nil {
		missing(t, "node")
	}
	cmd := exec.Command("node", "-e", "const n=require('number-to-words');const o=[];for(let i=0;i<10000;i++)o.push(n.toWords(i));console.log(o.join('\\n'))")
	cmd.Dir = dir
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != 10000 {
		t.Fatalf("%d numbers, 10000 are wanted", len(lines))
	}
	bad := 0
	check := func(s string, want int) {
		got, k, all := read(t, s)
		if k != all || got.Min != float64(want) || got.Max != float64(want) || got.Colloquial {
			if bad++; bad <= 10 {
				t.Errorf("%q: read %v in %d of %d tokens, want %d", s, got, k, all, want)
			}
		}
	}
	for i, s := range lines {
		check(s, i)
		if h := strings.Index(s, "hundred "); h >= 0 {
			check(s[:h]+"hundred and "+s[h+len("hundred "):], i)
		}
		check(strconv.Itoa(i), i)
	}
	if bad > 10 {
		t.Errorf("and %d more", bad-10)
	}
}

func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s is missing", what)
	}
	t.Skipf("%s is missing", what)
}

func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		said     string
		min, max float64
		tokens   int // 0: all of them
	}{
		{"two and a quarter", 2.25, 2.25, 0},
		{"one and three quarters", 1.75, 1.75, 0},
		{"three-quarters", 0.75, 0.75, 0},
		{"a half", 0.5, 0.5, 0},
		{"two thirds", 2. / 3, 2. / 3, 0},
		{"1 1/2", 1.5, 1.5, 0},
		{"1½", 1.5, 1.5, 0},
		{"½", 0.5, 0.5, 0},
		{"2.5", 2.5, 2.5, 0},
		{"1,250", 1250, 1250, 0},
		{"half a dozen", 6, 6, 0},
		{"a dozen", 12, 12, 0},
		{"two dozen", 24, 24, 0},
		{"a couple of", 2, 2, 0},
		{"one or two", 1, 2, 0},
		{"two to three", 2, 3, 0},
		{"ten to fifteen", 10, 15, 0},
		{"between four and six", 4, 6, 0},
		{"10-15", 10, 15, 0},
		{"ten, fifteen minutes", 10, 15, 2},
		{"three or four", 3, 4, 0},
		{"twenty-five hundred", 2500, 2500, 0},
		{"a hundred and twenty", 120, 120, 0},
		{"three hundred fifty", 350, 350, 0},
		{"six cups", 6, 6, 1},
		{"twelve, then", 12, 12, 1},
	} {
		got, k, all := read(t, c.said)
		if c.tokens == 0 {
			c.tokens = all
		}
		if k != c.tokens || math.Abs(got.Min-c.min) > 1e-9 || math.Abs(got.Max-c.max) > 1e-9 {
			t.Errorf("%q: read %v to %v in %d tokens, want %v to %v in %d", c.said, got.Min, got.Max, k, c.min, c.max, c.tokens)
		}
	}
}

// A number said like a dial is marked, so that only a temperature takes it.
func TestColloquialNumbers(t *testing.T) {
	for said, want := range map[string]float64{"three fifty": 350, "one sixty": 160, "two oh five": 205, "four seventy-five": 475, "two thirty-four": 234} {
		got, k, all := read(t, said)
		if k != all || got.Min != want || !got.Colloquial {
			t.Errorf("%q: read %+v in %d of %d tokens, want colloquial %v", said, got, k, all, want)
		}
	}
}

func TestNoNumber(t *testing.T) {
	for _, said := range []string{"flour", "and a half", "the", "hundreds", "", "x2y"} {
		if got, k, _ := read(t, said); k > 0 && !got.Article {
			t.Errorf("%q: read %+v in %d tokens, no number is said", said, got, k)
		}
	}
}

func TestSentencesWithoutMarks(t *testing.T) {
	toks := Words("so we cut the leeks into rings now you wash them well okay that's the leeks done")
	var got []string
	for _, s := range Sentences(toks, nil) {
		var ws []string
		for _, k := range toks[s.First:s.Last] {
			ws = append(ws, k.Norm)
		}
		got = append(got, strings.Join(ws, " "))
	}
	want := "so we cut the leeks into rings|now you wash them well|okay that's the leeks done"
	if strings.Join(got, "|") != want {
		t.Errorf("sentences\n%s\nwant\n%s", strings.Join(got, "|"), want)
	}
}

func FuzzNumber(f *testing.F) {
	for _, s := range []string{"two and a quarter cups", "1 1/2", "three fifty", "a hundred and", "between one and", "½½", "9x13", "one to", "half half a dozen dozen", "10-15-20"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if len(s) > 2000 {
			return // every start is tried: long inputs would only cost time
		}
		toks := Words(s)
		for i := range toks {
			n, k := ReadNumber(toks, i)
			if k < 0 || i+k > len(toks) {
				t.Fatalf("%q: %d tokens from %d of %d", s, k, i, len(toks))
			}
			if k > 0 && (n.Min > n.Max || math.IsNaN(n.Min) || math.IsInf(n.Max, 0)) {
				t.Fatalf("%q: %+v", s, n)
			}
		}
	})
}

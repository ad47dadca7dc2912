package archive

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"quern/internal/transcript"
	"quern/internal/written"
)

// endings are those of transcripts, in the order in which one of several
// transcripts of a recording is chosen: the finest times first.
var endings = []string{".vtt", ".ttml", ".dfxp", ".srt", ".md", ".txt"}

// pageEndings are those that only a written recipe has.
var pageEndings = []string{".html", ".htm"}

func endingsText() string { return strings.Join(endings, ", ") }

// item is one recording to work on.
type item struct {
	path     string // of the transcript, below the folder, with slashes
	document string // below the output folder, with slashes
	written  string // a written recipe of the same base name, below the folder; "" for none
	taken    string // another transcript of the same recording, which is read instead; "" for none
}

func checkPatterns(patterns []string) error {
	for _, p := range patterns {
		if _, err := path.Match(p, "x"); err != nil {
			return fmt.Errorf("pattern %q: %w; * stands for any letters but /, ? for one, [a-z] for one of some", p, err)
		}
	}
	return nil
}

// find lists the recordings of a folder in the order of their paths. Hidden
// files, links, and the output folder where it lies inside are passed over. The
// error wraps ErrTooMany where there are more than most files and folders.
func find(opt Options, most int) ([]item, error) {
	root, err := os.OpenRoot(opt.Folder)
	if err != nil {
		return nil, folderError(opt.Folder, err)
	}
	defer root.Close()
	out, outErr := os.Stat(opt.Out)
	if outErr == nil && !out.IsDir() {
		return nil, fmt.Errorf("%s: it is a file; -o wants a folder for the documents", opt.Out)
	}
	groups := map[string][]string{} // by path without the ending
	var stems []string
	seen := 0
	err = fs.WalkDir(root.FS(), ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return folderError(filepath.Join(opt.Folder, filepath.FromSlash(p)), err)
		}
		if p == "." {
			return nil
		}
		if seen++; seen > most {
			return fmt.Errorf("%s: %w: more than %d files and folders; give a folder of transcripts, or its parts one by one", opt.Folder, ErrTooMany, most)
		}
		hidden := strings.HasPrefix(d.Name(), ".")
		if d.IsDir() {
			if hidden {
				return fs.SkipDir
			}
			if outErr == nil {
				if info, err := d.Info(); err == nil && os.SameFile(info, out) {
					return fs.SkipDir
				}
			}
			return nil
		}
		ending := strings.ToLower(path.Ext(p))
		if hidden || !d.Type().IsRegular() || !slices.Contains(endings, ending) && !slices.Contains(pageEndings, ending) {
			return nil
		}
		stem := p[:len(p)-len(ending)]
		if groups[stem] == nil {
			stems = append(stems, stem)
		}
		groups[stem] = append(groups[stem], p)
		return nil
	})
	if err != nil {
		return nil, err
	}
	slices.Sort(stems)
	var items []item
	for _, stem := range stems {
		items = append(items, choose(root, opt.Only, stem, groups[stem])...)
	}
	return items, nil
}

func folderError(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s: %w; check the name of the folder", name, fs.ErrNotExist)
	}
	return fmt.Errorf("%s: cannot look into it: %w", name, err)
}

// choose tells the transcript of a recording from its other transcripts and
// from a written recipe of it. files have the same path but for the ending.
func choose(root *os.Root, only []string, stem string, files []string) []item {
	rank := func(p string) int {
		if i := slices.Index(endings, strings.ToLower(path.Ext(p))); i >= 0 {
			return i
		}
		return len(endings)
	}
	slices.SortFunc(files, func(a, b string) int {
		if d := rank(a) - rank(b); d != 0 {
			return d
		}
		return strings.Compare(a, b)
	})
	var talks, recipes []string
	for _, p := range files {
		switch {
		case rank(p) == len(endings):
			recipes = append(recipes, p)
		case len(files) > 1 && isWritten(root, p):
			recipes = append(recipes, p)
		case wanted(only, p):
			talks = append(talks, p)
		}
	}
	if len(talks) == 0 {
		return nil
	}
	first := item{path: talks[0], document: stem + ".yaml"}
	if len(recipes) > 0 {
		first.written = recipes[0]
	}
	items := []item{first}
	for _, p := range talks[1:] {
		items = append(items, item{path: p, taken: talks[0]})
	}
	return items
}

// isWritten tells whether a Markdown or text file that shares its base name
// with another is a written recipe rather than a transcript.
func isWritten(root *os.Root, p string) bool {
	ending := strings.ToLower(path.Ext(p))
	if ending != ".md" && ending != ".txt" {
		return false
	}
	f, err := root.Open(filepath.FromSlash(p))
	if err != nil {
		return false
	}
	defer f.Close()
	n, err := transcript.Read(p, f)
	if err != nil || n.Timed {
		return false
	}
	if _, err := f.Seek(0, 0); err != nil {
		return false
	}
	data, err := readAll(f)
	return err == nil && written.Looks(data)
}

func wanted(only []string, p string) bool {
	if len(only) == 0 {
		return true
	}
	return slices.ContainsFunc(only, func(pattern string) bool {
		byName, _ := path.Match(pattern, path.Base(p))
		byPath, _ := path.Match(pattern, p)
		return byName || byPath
	})
}

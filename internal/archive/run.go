package archive

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"quern/extract"
	"quern/internal/derive"
	"quern/internal/merge"
	"quern/internal/nutrition"
	"quern/internal/transcript"
	"quern/internal/written"
	"quern/schema"
)

// largeBytes is the size from which transcripts are worked on one at a time,
// so that memory follows the largest of them and not the number of processors.
const largeBytes = 256 << 10

// Writers for each recording worked on: while one waits for the disk the
// processor goes on with the next.
const writersPerJob = 4

// run is one run over a folder.
type run struct {
	opt   Options
	sum   *Summary
	state *state
	foods map[string]foods // by folder of the document
	cpu   chan struct{}    // holds one token for each recording that may be read at once
	large sync.Mutex
	// clash has the recordings whose document another one's would be written
	// over, and that other one.
	clash map[string]string
}

// foods are a person's own foods with what tells them from others.
type foods struct {
	own *nutrition.Own
	sum sum
}

// result is what became of one recording.
type result struct {
	item  item
	event Event
	entry entry
	rows  []byte // nil when the entry is as it was
}

// all works on every recording, then writes the reports.
func (r *run) all(ctx context.Context, items []item) error {
	if err := r.readFoods(items); err != nil {
		return err
	}
	state, err := openState(r.opt.Out, r.opt.DryRun)
	if err != nil {
		return err
	}
	defer state.close()
	r.state = state
	if state.broken && !r.opt.DryRun {
		if err := sweepDocuments(r.opt.Out, items); err != nil {
			return err
		}
	}
	if !r.opt.DryRun { // which changes nothing, not even to ask the disk
		if r.clash, err = clashes(items, state.alike); err != nil {
			return err
		}
	}
	workers := min(r.opt.Jobs*writersPerJob, MostJobs)
	r.cpu = make(chan struct{}, r.opt.Jobs)
	i := 0
	next := func() (item, bool) {
		if i == len(items) {
			return item{}, false
		}
		i++
		return items[i-1], true
	}
	entries := make(map[string]entry, len(items))
	number := 0
	err = ordered(ctx, workers, 2*workers, next, r.one, func(res result) error {
		number++
		res.event.Number, res.event.Of, res.event.Path = number, len(items), res.item.path
		if res.event.State == Failed {
			r.sum.Failures = append(r.sum.Failures, res.event.Err.Error())
		}
		if res.event.State != Failed && res.event.State != LeftOut && !r.opt.DryRun {
			e := res.entry
			if res.rows != nil {
				if e, err = state.note(res.item.path, e, res.rows); err != nil {
					return err
				}
			}
			entries[res.item.path] = e
		}
		r.sum.Recordings++
		r.sum.ByState[res.event.State]++
		r.sum.Open += res.event.Open
		r.sum.Recipes += res.event.Recipes
		r.opt.Progress(res.event)
		return nil
	})
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return fmt.Errorf("%w after %d of %d; the same call goes on from there", ErrStopped, number, len(items))
	}
	if err != nil || r.opt.DryRun {
		return err
	}
	return r.finish(items, entries)
}

// finish writes the state and the reports.
func (r *run) finish(items []item, entries map[string]entry) error {
	paths := make([]string, 0, len(items))
	documents := make(map[string]bool, len(items))
	var left []string
	for _, it := range items {
		paths = append(paths, it.path)
		documents[it.document] = true
		if it.taken != "" {
			left = append(left, it.path+"\t"+it.taken)
		}
	}
	if len(r.opt.Only) > 0 {
		paths = append(paths, r.others(entries)...)
		slices.Sort(paths)
	} else {
		r.orphans(documents)
	}
	digest, err := r.state.finish(paths, entries)
	if err != nil {
		return err
	}
	return r.reports(digest, left)
}

// others gives the recordings that this run was not asked for, so that they
// stay in the state and in the reports.
func (r *run) others(entries map[string]entry) []string {
	var out []string
	for p, e := range r.state.entries {
		if !wanted(r.opt.Only, p) {
			entries[p] = e
			out = append(out, p)
		}
	}
	return out
}

// orphans finds the documents of recordings that are gone. documents are those
// of the recordings that are there.
func (r *run) orphans(documents map[string]bool) {
	for p := range r.state.entries {
		document := strings.TrimSuffix(p, path.Ext(p)) + ".yaml"
		if documents[document] {
			continue
		}
		if _, err := os.Stat(filepath.Join(r.opt.Out, filepath.FromSlash(document))); err == nil {
			r.sum.Orphans = append(r.sum.Orphans, document)
		}
	}
	r.sum.Orphans = slices.Compact(sorted(r.sum.Orphans))
}

// readFoods finds the foods file of every folder that gets documents, so that
// a mistake in one is told before anything is written.
func (r *run) readFoods(items []item) error {
	r.foods = map[string]foods{}
	byFile := map[string]foods{}
	read := func(name string, must bool) (foods, bool, error) {
		if f, ok := byFile[name]; ok {
			return f, true, nil
		}
		data, err := nutrition.OwnText(name)
		if errors.Is(err, fs.ErrNotExist) && !must {
			return foods{}, false, nil
		}
		if err != nil {
			return foods{}, false, fmt.Errorf("%s: cannot read it: %w", name, err)
		}
		own, err := nutrition.ReadOwn(name, data)
		if err != nil {
			return foods{}, false, err
		}
		byFile[name] = foods{own, sha256.Sum256(data)}
		return byFile[name], true, nil
	}
	for _, it := range items {
		dir := path.Dir(it.document)
		if _, done := r.foods[dir]; done || it.document == "" {
			continue
		}
		var places []string
		for up := dir; ; up = path.Dir(up) {
			places = append(places, filepath.Join(r.opt.Out, filepath.FromSlash(up), nutrition.OwnFile))
			if up == "." {
				break
			}
		}
		places = append(places, filepath.Join(r.opt.Folder, nutrition.OwnFile))
		if r.opt.Foods != "" {
			places = []string{r.opt.Foods}
		}
		r.foods[dir] = foods{}
		for _, name := range places {
			f, found, err := read(name, r.opt.Foods != "")
			if err != nil {
				return err
			}
			if found {
				r.foods[dir] = f
				break
			}
		}
	}
	return nil
}

// one works on one recording.
func (r *run) one(it item) result {
	res := result{item: it}
	if it.taken != "" {
		res.event = Event{State: LeftOut, Note: it.taken + " is taken"}
		return res
	}
	if err := r.try(it, &res); err != nil {
		res.event = Event{State: Failed, Err: err}
		res.rows = nil
	}
	return res
}

func (r *run) try(it item, res *result) error {
	if other, ok := r.clash[it.path]; ok {
		return fmt.Errorf("%s: its document would be the same file as that of %s: this disk doesn't tell their names apart; rename one", it.path, other)
	}
	name := filepath.Join(r.opt.Folder, filepath.FromSlash(it.path))
	data, err := readFile(name)
	if err != nil {
		return fmt.Errorf("%s: cannot read it: %w", it.path, errors.Unwrap(err))
	}
	var recipe []byte
	if it.written != "" {
		if recipe, err = readFile(filepath.Join(r.opt.Folder, filepath.FromSlash(it.written))); err != nil {
			return fmt.Errorf("%s: cannot read it: %w", it.written, errors.Unwrap(err))
		}
	}
	own := r.foods[path.Dir(it.document)]
	res.entry.source, res.entry.key = sha256.Sum256(data), r.key(it, recipe, own)
	document := filepath.Join(r.opt.Out, filepath.FromSlash(it.document))
	if old, ok := r.state.look(it.path); ok && old.source == res.entry.source && old.key == res.entry.key {
		now, err := readFile(document)
		if err == nil && sha256.Sum256(now) == old.document {
			res.entry = old
			res.event = Event{State: Unchanged, Recipes: old.recipes, Open: old.open}
			return nil
		}
	}
	if len(data) >= largeBytes {
		r.large.Lock()
		defer r.large.Unlock()
		defer Thrifty(int64(len(data)))()
	}
	made, err := r.read(it, data, recipe, own)
	if err != nil {
		return err
	}
	data = nil
	res.event.Note = made.odd
	text, err := r.save(it, document, made, own, &res.event)
	if err != nil {
		return err
	}
	res.entry.document = sha256.Sum256(text)
	for _, doc := range made.docs {
		res.event.Open += len(doc.Open())
	}
	res.event.Recipes = len(made.docs)
	res.entry.recipes, res.entry.open = res.event.Recipes, res.event.Open
	res.rows, err = json.Marshal(rowsOf(it, made))
	return err
}

// key is the sum of what a document is made from besides the transcript.
func (r *run) key(it item, recipe []byte, own foods) sum {
	h := sha256.New()
	recipeSum := sha256.Sum256(recipe)
	fmt.Fprintf(h, "%q %q %q %x %x", r.opt.Version, it.document, it.written, recipeSum, own.sum)
	return sum(h.Sum(nil))
}

// made is what was read of one recording.
type made struct {
	docs    []*schema.Document
	odd     string // what was odd in the transcript, "" for nothing
	text    []byte // the documents, written
	sketch  sketch
	recipe  *written.Recipe // the written recipe beside the recording, nil for none
	compare []written.Difference
}

// read makes the documents of one recording.
func (r *run) read(it item, data, recipe []byte, own foods) (*made, error) {
	r.cpu <- struct{}{}
	defer func() { <-r.cpu }()
	n, err := transcript.Parse(it.path, data)
	if err != nil {
		return nil, err
	}
	m := &made{docs: recipesOf(n, own.own), sketch: sketchOf(n), odd: oddIn(n)}
	if recipe != nil {
		if m.recipe, err = written.Read(it.written, recipe); err != nil {
			return nil, err
		}
	}
	var b bytes.Buffer
	if err := schema.WriteYAML(&b, m.docs...); err != nil {
		return nil, fmt.Errorf("%s: %w", it.path, err)
	}
	m.text = b.Bytes()
	return m, nil
}

// oddIn tells of the first warning about a transcript and how many more there
// are.
func oddIn(n *transcript.Narration) string {
	if len(n.Warnings) == 0 {
		return ""
	}
	w := n.Warnings[0]
	text := w.Text
	if w.Line > 0 {
		text = fmt.Sprintf("line %d: %s", w.Line, w.Text)
	}
	if more := len(n.Warnings) - 1; more > 0 {
		text += fmt.Sprintf(" (and %s)", plural(more, "more warning", "more warnings"))
	}
	return text
}

// recipesOf gives the recipes told in a narration and what follows from them.
func recipesOf(n *transcript.Narration, own *nutrition.Own) []*schema.Document {
	docs := extract.Extract(n)
	for _, doc := range docs {
		derive.Apply(doc, derive.Options{Own: own})
	}
	return docs
}

// save puts the documents in their place, joined with what is there, and gives
// the text that stands there then. m.docs become what that text holds.
func (r *run) save(it item, document string, m *made, own foods, event *Event) ([]byte, error) {
	now, err := readFile(document)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		event.State = Written
		if r.opt.DryRun {
			break
		}
		if err := r.create(document, m.text); err != nil {
			return nil, err
		}
	case err != nil:
		return nil, fmt.Errorf("%s: cannot read it: %w", document, err)
	case bytes.Equal(now, m.text):
		event.State = Kept
		if r.opt.DryRun {
			break
		}
		if base, err := readFile(merge.Written(document)); err != nil || !bytes.Equal(base, m.text) {
			if err := r.state.put(merge.Written(document), m.text); err != nil {
				return nil, err
			}
		}
	default:
		return r.join(it, document, m, own, event)
	}
	m.compareWith(m.docs)
	return m.text, nil
}

// create writes a new document. Its name is free: a link that leads nowhere
// would be written over, and isn't ours.
func (r *run) create(document string, text []byte) error {
	if _, err := os.Lstat(document); err == nil {
		return fmt.Errorf("%s: a link to a file that is not there; take it away or mend it", document)
	}
	if err := os.MkdirAll(filepath.Dir(document), 0o755); err != nil {
		return fmt.Errorf("%s: cannot make the folder: %w", filepath.Dir(document), err)
	}
	if err := r.state.put(document, text); err != nil {
		return err
	}
	return r.state.put(merge.Written(document), text)
}

// join merges the documents with the one that is there.
func (r *run) join(it item, document string, m *made, own foods, event *Event) ([]byte, error) {
	saved, err := merge.SaveWith(document, m.text, r.opt.DryRun, derive.Options{Own: own.own})
	if err != nil {
		return nil, err
	}
	event.State = Kept
	if saved.Diff != "" {
		event.State = Merged
	}
	if n := len(saved.Clashes); n > 0 {
		event.Note = strings.TrimPrefix(event.Note+"; yours kept where the recording now gives something else", "; ")
	}
	if r.opt.DryRun {
		return m.text, nil
	}
	text, err := readFile(document)
	if err != nil {
		return nil, fmt.Errorf("%s: cannot read it: %w", document, err)
	}
	if m.docs, err = schema.ReadAll(it.document, text); err != nil {
		return nil, err
	}
	m.compareWith(m.docs)
	return text, nil
}

// compareWith compares the written recipe beside the recording, if there is
// one, with the recipe it is of: the one it has most in common with.
func (m *made) compareWith(docs []*schema.Document) {
	if m.recipe != nil {
		m.compare = written.Compare(written.Nearest(docs, m.recipe), m.recipe)
	}
}

// readFile reads a file of at most the size of the largest transcript.
func readFile(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := readAll(f)
	if err != nil {
		return nil, &fs.PathError{Op: "read", Path: name, Err: err}
	}
	return data, nil
}

// readAll reads one byte more than a transcript may have, at most, so that one
// too large is told of by its reader.
func readAll(f *os.File) ([]byte, error) {
	var b bytes.Buffer
	if info, err := f.Stat(); err == nil && info.Size() > 0 && info.Size() <= transcript.MaxBytes {
		b.Grow(int(info.Size()) + bytes.MinRead)
	}
	_, err := b.ReadFrom(io.LimitReader(f, transcript.MaxBytes+1))
	return b.Bytes(), err
}

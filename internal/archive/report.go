package archive

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"quern/internal/safety"
	"quern/internal/written"
	"quern/schema"
)

// reportVersion goes up when a report is drawn another way, so that one that
// is there is drawn again.
const reportVersion = 1

// Totals sum up an archive.
type Totals struct {
	Recordings   int         `json:"recordings"` // that were read
	Recipes      int         `json:"recipes"`
	Seconds      float64     `json:"length_s"`
	Open         int         `json:"open_flags"`
	Settled      int         `json:"settled_flags"`
	ByKind       []KindCount `json:"open_by_kind"`
	Complete     [10]int     `json:"complete_spread"` // recipes from 0 to 9 percent, from 10 to 19 …, from 90 to 100
	Holds        []int       `json:"holds"`           // recipes that hold each component wholly, in the order of the components
	Needs        []int       `json:"needs"`           // recipes that need each
	MacrosWhole  int         `json:"macros_complete"`
	MacrosBounds int         `json:"macros_lower_bounds"`
	Compared     int         `json:"compared"` // recordings with a written recipe beside them
	Differences  int         `json:"differences"`
}

func (t *Totals) add(row *Row) {
	if row.Recipe == 1 {
		t.Recordings++
		t.Seconds += row.Length
	}
	t.Recipes++
	t.Open += row.open()
	t.Settled += row.Settled
	for _, k := range row.Open {
		i := slices.IndexFunc(t.ByKind, func(x KindCount) bool { return x.Kind == k.Kind })
		if i < 0 {
			i = len(t.ByKind)
			t.ByKind = append(t.ByKind, KindCount{Kind: k.Kind})
		}
		t.ByKind[i].Count += k.Count
	}
	t.Complete[min(row.Complete/10, 9)]++
	if t.Holds == nil {
		t.Holds, t.Needs = make([]int, len(componentNames)), make([]int, len(componentNames))
	}
	for i, c := range row.Holds {
		if i < len(t.Holds) && c.Needs {
			t.Needs[i]++
			if c.Share >= 1 {
				t.Holds[i]++
			}
		}
	}
	switch row.Macros.Worked {
	case "complete":
		t.MacrosWhole++
	case "lower bounds":
		t.MacrosBounds++
	}
	if row.Written != "" {
		t.Compared++
		for _, d := range row.Differs {
			t.Differences += d.Count
		}
	}
}

// sortKinds puts the kinds in the order of the form.
func (t *Totals) sortKinds() {
	counts := map[string]int{}
	for _, k := range t.ByKind {
		counts[k.Kind] = k.Count
	}
	t.ByKind = []KindCount{}
	for _, kind := range flagKinds(counts) {
		t.ByKind = append(t.ByKind, KindCount{kind, counts[kind]})
	}
}

// view is what every form of the report is drawn from. Rows are read from the
// state as they are drawn, so that they are never all in memory.
type view struct {
	totals   Totals
	across   *Across
	failures []string
	left     []string // "path\ttaken path"
	columns  []string // allergens that any recipe names, in the order of the form
	rows     func(do func(number int, row *Row) error) error
	toOut    string // from the report to the output folder, with slashes
	toFolder string // from the report to the folder of the transcripts
}

// form is one way of writing the report.
type form struct {
	ending string
	write  func(io.Writer, *view) error
}

var forms = []form{{".html", writeHTML}, {".csv", writeCSV}, {".json", writeJSON}}

// reportForm finds the form that a name's ending tells.
func reportForm(name string) (form, error) {
	ending := strings.ToLower(filepath.Ext(name))
	for _, f := range forms {
		if f.ending == ending {
			return f, nil
		}
	}
	return form{}, fmt.Errorf("report %s: the ending tells the form: .html, .csv or .json", name)
}

// reports writes the reports asked for, where they are not there already as
// they would be written.
func (r *run) reports(digest sum, left []string) error {
	if len(r.opt.Reports) == 0 {
		return nil
	}
	stamps := []string{}
	due := false
	for _, name := range r.opt.Reports {
		stamp := r.stamp(name, digest, left)
		now, err := fileSum(name)
		if err != nil || !bytes.Contains(r.state.reports, fmt.Appendf(nil, "%s %s\n", stamp, now)) {
			due = true
		}
		stamps = append(stamps, stamp)
	}
	r.sum.Reports = r.opt.Reports
	if !due {
		return nil
	}
	v, err := r.gather(left)
	if err != nil {
		return err
	}
	var noted bytes.Buffer
	for i, name := range r.opt.Reports {
		written, err := r.report(name, v)
		if err != nil {
			return err
		}
		fmt.Fprintf(&noted, "%s %s\n", stamps[i], written)
	}
	return r.state.put(filepath.Join(r.state.folder, reportsFile), noted.Bytes())
}

// stamp tells what a report is drawn from.
func (r *run) stamp(name string, digest sum, left []string) string {
	h := sha256.New()
	toOut, toFolder := r.links(name)
	fmt.Fprintf(h, "%d %x %q %q %q %q %q", reportVersion, digest, r.opt.Version, toOut, toFolder, r.sum.Failures, left)
	return hex.EncodeToString(h.Sum(nil))
}

// links gives the way from a report to the documents and to the transcripts.
func (r *run) links(name string) (toOut, toFolder string) {
	base := filepath.Dir(name)
	way := func(to string) string {
		from, err := filepath.Abs(base)
		if err != nil {
			return ""
		}
		if to, err = filepath.Abs(to); err != nil {
			return ""
		}
		rel, err := filepath.Rel(from, to)
		if err != nil {
			return ""
		}
		return filepath.ToSlash(rel)
	}
	return way(r.opt.Out), way(r.opt.Folder)
}

func fileSum(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// gather goes through the rows once and keeps what all forms need.
func (r *run) gather(left []string) (*view, error) {
	v := &view{failures: r.sum.Failures, left: left}
	v.rows = func(do func(int, *Row) error) error {
		number := 0
		return eachRow(r.opt.Out, func(data []byte) error {
			var rows []Row
			if err := json.Unmarshal(data, &rows); err != nil {
				return fmt.Errorf("%s: a row is not as quern batch left it: %w", r.state.folder, err)
			}
			for i := range rows {
				number++
				if err := do(number, &rows[i]); err != nil {
					return err
				}
			}
			return nil
		})
	}
	g := newGathering()
	named := map[string]bool{}
	err := v.rows(func(_ int, row *Row) error {
		v.totals.add(row)
		g.add(row)
		for _, a := range row.Allergens {
			named[a.Name] = true
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	v.totals.sortKinds()
	for _, name := range safety.Names {
		if named[name] {
			v.columns = append(v.columns, name)
			delete(named, name)
		}
	}
	var others []string
	for name := range named {
		others = append(others, name)
	}
	v.columns = append(v.columns, sorted(others)...)
	v.across = g.across()
	return v, nil
}

// report writes one report in one move and gives the sum of its bytes.
func (r *run) report(name string, v *view) (string, error) {
	f, err := reportForm(name)
	if err != nil {
		return "", err
	}
	v.toOut, v.toFolder = r.links(name)
	// A fixed name, so that one left by a killed run is written over by the next.
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return "", fmt.Errorf("%s: cannot make its folder: %w", name, err)
	}
	fresh := filepath.Join(filepath.Dir(name), "."+filepath.Base(name)+".new")
	file, err := os.Create(fresh)
	if err != nil {
		return "", fmt.Errorf("%s: cannot be written: %w", name, err)
	}
	defer os.Remove(fresh) // nothing is there once it has moved
	defer file.Close()
	h := sha256.New()
	w := bufio.NewWriterSize(io.MultiWriter(file, h), 1<<16)
	if err := errors.Join(f.write(w, v), w.Flush()); err != nil {
		return "", fmt.Errorf("%s: cannot be written: %w", name, err)
	}
	if err := place(file, name); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// writeJSON writes the report for programs: rows, totals and what the archive
// tells across them.
func writeJSON(w io.Writer, v *view) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	if _, err := io.WriteString(w, "{\"rows\": [\n"); err != nil {
		return err
	}
	err := v.rows(func(number int, row *Row) error {
		if number > 1 {
			if _, err := io.WriteString(w, ","); err != nil {
				return err
			}
		}
		row.Sketch = nil
		fill(row)
		return enc.Encode(row)
	})
	if err != nil {
		return err
	}
	tail := []struct {
		key   string
		value any
	}{
		{"totals", v.totals}, {"components_from", componentsSource}, {"not_judged", notJudged}, {"failures", orEmpty(v.failures)},
		{"left_out", orEmpty(v.left)}, {"allergens_named", orEmpty(v.columns)}, {"notice", safety.Notice},
	}
	if _, err := io.WriteString(w, "]"); err != nil {
		return err
	}
	for _, t := range tail {
		if _, err := fmt.Fprintf(w, ",\n%q: ", t.key); err != nil {
			return err
		}
		if err := enc.Encode(t.value); err != nil {
			return err
		}
	}
	a := v.across
	err = errors.Join(
		lead(w, ",\n\"across\": {"),
		writeList(w, enc, "synonyms", a.Synonyms), lead(w, ","),
		writeList(w, enc, "twins", a.Twins), lead(w, ","),
		writeList(w, enc, "usual", a.Usual), lead(w, ","),
		writeList(w, enc, "temperatures", a.Heats), lead(w, ","),
		writeList(w, enc, "index", a.Index),
		lead(w, "}}\n"),
	)
	return err
}

func lead(w io.Writer, text string) error {
	_, err := io.WriteString(w, text)
	return err
}

// writeList writes a key with its list, one item after another: an encoder
// keeps the whole of what it is given until it is written.
func writeList[T any](w io.Writer, enc *json.Encoder, key string, list []T) error {
	if _, err := fmt.Fprintf(w, "\n%q: [", key); err != nil {
		return err
	}
	for i := range list {
		if i > 0 {
			if err := lead(w, ","); err != nil {
				return err
			}
		}
		if err := enc.Encode(&list[i]); err != nil {
			return err
		}
	}
	return lead(w, "]")
}

// fill gives a row's empty lists their brackets.
func fill(row *Row) {
	if row.Open == nil {
		row.Open = []KindCount{}
	}
	if row.Items == nil {
		row.Items = []Item{}
	}
	if row.Ovens == nil {
		row.Ovens = []float64{}
	}
	if row.Allergens == nil {
		row.Allergens = []schema.Allergen{}
	}
}

// writeCSV writes the report as a table (RFC 4180), a row a recipe.
func writeCSV(w io.Writer, v *view) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	head := []string{"transcript", "document", "recipe", "title", "length (s)", "yield", "open flags"}
	for _, k := range v.totals.ByKind {
		head = append(head, k.Kind)
	}
	head = append(head, "settled flags", "complete (%)")
	head = append(head, componentNames...)
	head = append(head, "macros", "macros missing", "macros conflicts", "oven (F)", "written recipe", "differences from it", "allergens named")
	if err := c.Write(head); err != nil {
		return err
	}
	err := v.rows(func(_ int, row *Row) error {
		line := []string{row.Path, row.Document, strconv.Itoa(row.Recipe), row.Title, number(int(row.Length)), row.Yield, strconv.Itoa(row.open())}
		for _, k := range v.totals.ByKind {
			line = append(line, strconv.Itoa(row.kind(k.Kind)))
		}
		line = append(line, strconv.Itoa(row.Settled), strconv.Itoa(row.Complete))
		for _, h := range row.Holds {
			line = append(line, h.word())
		}
		differences := ""
		if row.Written != "" {
			differences = strconv.Itoa(row.differences())
		}
		var named []string
		for _, a := range row.Allergens {
			named = append(named, a.Name)
		}
		line = append(line, row.Macros.String(), strconv.Itoa(row.Macros.Missing), strconv.Itoa(row.Macros.Conflicts), degrees(row.Ovens),
			row.Written, differences, strings.Join(named, "; "))
		for i := range line {
			line[i] = cell(line[i])
		}
		return c.Write(line)
	})
	c.Flush()
	return errors.Join(err, c.Error())
}

// cell keeps a spreadsheet from taking a text for a formula.
func cell(s string) string {
	if s != "" && strings.ContainsAny(s[:1], "=+-@\t\r") {
		return "'" + s
	}
	return s
}

// word tells in a word how far a component is there.
func (c Component) word() string {
	switch {
	case !c.Needs:
		return "not needed"
	case c.Share >= 1:
		return "yes"
	case c.Share <= 0:
		return "no"
	case c.Note != "":
		return c.Note
	}
	return "in part"
}

func (r *Row) kind(kind string) int {
	for _, k := range r.Open {
		if k.Kind == kind {
			return k.Count
		}
	}
	return 0
}

func (r *Row) differences() int {
	n := 0
	for _, d := range r.Differs {
		n += d.Count
	}
	return n
}

// degrees writes temperatures: "350, 425".
func degrees(list []float64) string {
	var out []string
	for _, f := range list {
		out = append(out, strconv.FormatFloat(f, 'f', -1, 64))
	}
	return strings.Join(out, ", ")
}

// differenceWords gives the words for a kind of difference.
func differenceWords(kind string) string {
	for _, k := range written.Kinds() {
		if k.Kind == kind {
			return k.Words
		}
	}
	return kind
}

func number(n int) string { return strconv.Itoa(n) }

// plural writes a number and its noun.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

func sorted(list []string) []string {
	slices.Sort(list)
	return list
}

func orEmpty(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}

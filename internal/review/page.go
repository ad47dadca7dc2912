package review

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"net/http"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"quern/internal/safety"
	"quern/internal/settle"
	"quern/internal/transcript"
	"quern/schema"
)

//go:embed page.html.tmpl list.html.tmpl page.css page.js icon.svg
var files embed.FS

var templates = template.Must(template.ParseFS(files, "*.html.tmpl"))

// asset serves one of the page's own files.
func asset(w http.ResponseWriter, r *http.Request, name string) {
	data, err := files.ReadFile(name)
	if err != nil {
		http.Error(w, "there is nothing here", http.StatusNotFound)
		return
	}
	kinds := map[string]string{"page.css": "text/css; charset=utf-8", "page.js": "text/javascript; charset=utf-8", "icon.svg": "image/svg+xml"}
	w.Header().Set("Content-Type", kinds[name])
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
}

// page is what the templates show. Every text in it went through settle.Plain.
type page struct {
	Root    string // address of the list of recipes
	Action  string // address of this recipe
	Title   string
	File    string
	Version string
	Many    bool // there is more than one recipe in the review

	Alert, Note string
	Open        int
	CanUndo     bool
	Questions   []question
	Settled     []settled

	Yield, Figures  string
	Facts           []fact // of the yield
	Groups          []group
	Steps           []line
	Storage, Claims []line
	Equipment       []line
	Allergens       []string
	Cautions        []line
	Notice          string

	Talk     []paragraph
	TalkNote string

	Player, Video bool
	PlayerKind    string
	Captions      bool

	typed   typed
	refused map[string]string
}

type question struct {
	N              int
	Key            string
	Ask, Takes     string
	Evidence       []string
	Facts          []fact
	Answer, Refuse string
	First          bool // the field to begin with
}

type settled struct{ Ask, Answer string }

type group struct {
	Name  string
	Lines []line
}

// line is one line of the recipe with the facts it rests on.
type line struct {
	ID     string
	Main   string // what stands out: the amount, the place
	Text   string
	More   string
	Absent bool // Main is missing and asked for
	Facts  []fact
}

// fact is one moment of the talk something came from.
type fact struct {
	ID       string // of the moment in the talk
	Clock    string // "1:04"; "in the talk" where there are no times
	Quote    string
	At       string // seconds, for the player; "" without times
	From, To int    // words
	Found    bool   // the words are in the talk
	About    string // for who can't see where the link stands
	home     string // ID of the line it belongs to
	kind     string
}

type paragraph struct {
	ID, Clock, Voice string
	Pieces           []piece
}

// piece is a run of words that became one thing, or nothing.
type piece struct {
	Anchors  []string
	Text     string
	Home     string // ID of the line it became
	Kind     string
	About    string
	At       string
	From, To int
}

// builder makes the view of one recipe.
type builder struct {
	talk  *settle.Talk
	facts []fact
	lines int
}

// list shows every recipe with its open flags.
func (s *Server) list(w http.ResponseWriter, r *http.Request) {
	type entry struct {
		Title, File, Address, Problem string
		Open                          int
	}
	var v struct {
		Root    string
		Open    int
		Entries []entry
	}
	v.Root = "/" + s.token + "/"
	for i, b := range s.books {
		b.mu.Lock()
		docs, err := s.read(b)
		b.mu.Unlock()
		if err != nil {
			v.Entries = append(v.Entries, entry{Title: settle.Plain(filepath.Base(b.name)), File: settle.Plain(b.name), Problem: settle.Plain(err.Error())})
			continue
		}
		for d, doc := range docs {
			open := len(doc.Open())
			v.Open += open
			v.Entries = append(v.Entries, entry{Title: titleOf(doc), File: settle.Plain(b.name), Open: open,
				Address: fmt.Sprintf("%srecipe/%d/%d", v.Root, i, d)})
		}
	}
	s.put(w, http.StatusOK, "list.html.tmpl", v)
}

func titleOf(doc *schema.Document) string {
	if t := strings.TrimSpace(settle.Plain(doc.Title)); t != "" {
		return t
	}
	return "A recipe without a title"
}

func (s *Server) put(w http.ResponseWriter, code int, name string, v any) {
	var b bytes.Buffer
	if err := templates.ExecuteTemplate(&b, name, v); err != nil {
		http.Error(w, "the page could not be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(code)
	// A browser that went away needs no answer.
	_, _ = w.Write(b.Bytes())
}

// show answers a request for the page of one recipe.
func (s *Server) show(w http.ResponseWriter, r *http.Request, b *book, doc int) {
	b.mu.Lock()
	defer b.mu.Unlock()
	var p page
	switch n := r.URL.Query().Get("saved"); n {
	case "", "0":
	case "undo":
		p.Note = "The last save is taken back."
	default:
		if i, ok := index(n); ok {
			p.Note = answersIn(i) + " saved."
		}
	}
	s.render(w, http.StatusOK, b, doc, p)
}

// render writes the page of one recipe as the file stands now. The book must
// be locked.
func (s *Server) render(w http.ResponseWriter, code int, b *book, doc int, p page) {
	docs, err := s.read(b)
	if err != nil {
		http.Error(w, settle.Plain(err.Error()), http.StatusInternalServerError)
		return
	}
	if doc >= len(docs) {
		http.Error(w, "there is no such recipe in the file any more", http.StatusNotFound)
		return
	}
	d := docs[doc]
	p.Root = "/" + s.token + "/"
	p.Action = p.Root + "recipe/" + s.numbers(b, doc)
	p.Title, p.File, p.Version = titleOf(d), settle.Plain(b.name), b.file.Version()
	p.Many = len(s.books) > 1 || len(docs) > 1
	p.CanUndo = len(b.undo) > 0 && bytes.Equal(b.undo[len(b.undo)-1].after, b.file.Data())
	p.Notice = safety.Notice
	p.Figures = settle.Plain(settle.Figures(d))
	bl := &builder{}
	if talk, err := settle.FindTalk(b.name, d.Source); err != nil {
		p.TalkNote = settle.Plain(err.Error())
	} else {
		bl.talk = talk
		if talk.Changed {
			p.TalkNote = "The transcript has changed since the recipe was read from it."
		}
	}
	bl.fill(&p, d)
	if s.recording != nil && s.belongs(d) {
		p.Player, p.Video, p.PlayerKind = true, s.recording.video, s.recording.kind()
		p.Captions = bl.talk != nil && bl.talk.Timed
	}
	s.put(w, code, "page.html.tmpl", p)
}

// belongs reports whether the recording is that of a recipe. Where a document
// names a transcript of the recording's name, only such documents have it.
func (s *Server) belongs(d *schema.Document) bool {
	stem := func(name string) string { return strings.TrimSuffix(filepath.Base(name), filepath.Ext(name)) }
	own := stem(s.recording.name)
	if d.Source != nil && stem(d.Source.File) == own {
		return true
	}
	for _, b := range s.books {
		docs, err := schema.ReadAll(b.name, b.file.Data())
		if err != nil {
			continue
		}
		for _, o := range docs {
			if o.Source != nil && stem(o.Source.File) == own {
				return false
			}
		}
	}
	return true
}

// captions gives the talk as WebVTT, for the video.
func (s *Server) captions(w http.ResponseWriter, b *book, doc int) {
	b.mu.Lock()
	defer b.mu.Unlock()
	docs, err := s.read(b)
	if err != nil || doc >= len(docs) {
		http.Error(w, "there is no such recipe", http.StatusNotFound)
		return
	}
	talk, err := settle.FindTalk(b.name, docs[doc].Source)
	if err != nil || !talk.Timed {
		http.Error(w, "there is no timed talk", http.StatusNotFound)
		return
	}
	var out strings.Builder
	out.WriteString("WEBVTT\n")
	escape := strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")
	for _, c := range talk.Cues {
		if c.End <= c.Start || c.Text == "" {
			continue
		}
		fmt.Fprintf(&out, "\n%s --> %s\n%s\n", transcript.Stamp(c.Start), transcript.Stamp(c.End), escape.Replace(settle.Plain(c.Text)))
	}
	w.Header().Set("Content-Type", "text/vtt; charset=utf-8")
	// A browser that went away needs no answer.
	_, _ = w.Write([]byte(out.String()))
}

// fill puts a recipe into the page.
func (bl *builder) fill(p *page, d *schema.Document) {
	bl.questions(p, d)
	bl.recipe(p, d)
	bl.paragraphs(p)
}

func (bl *builder) questions(p *page, d *schema.Document) {
	open := settle.Open([]*schema.Document{d})
	p.Open = len(open)
	for i, q := range open {
		id := "question-" + strconv.Itoa(i)
		p.Questions = append(p.Questions, question{N: i, Key: q.Key, Ask: settle.Plain(q.Ask), Takes: q.Takes, Evidence: plain(q.Evidence),
			Facts: bl.said(q.Said, id, "question", q.Ask), Answer: settle.Plain(p.typed[q.Key]), Refuse: settle.Plain(p.refused[q.Key])})
	}
	begin := 0
	for i, q := range p.Questions {
		if q.Refuse != "" {
			begin = i
			break
		}
	}
	if len(p.Questions) > 0 {
		p.Questions[begin].First = true
	}
	for _, f := range d.Flags {
		if f.Settled != "" {
			p.Settled = append(p.Settled, settled{settle.Plain(f.Ask), settle.Plain(f.Settled)})
		}
	}
}

func plain(list []string) []string {
	out := make([]string, len(list))
	for i, t := range list {
		out[i] = settle.Plain(t)
	}
	return out
}

// said finds the moments a line rests on.
func (bl *builder) said(said []schema.Said, home, kind, about string) []fact {
	var out []fact
	for _, s := range said {
		if s.At == "" && s.Quote == "" {
			continue
		}
		f := fact{ID: "moment-" + strconv.Itoa(len(bl.facts)), Quote: settle.Plain(s.Quote), About: settle.Plain(about), Clock: "in the talk", home: home, kind: kind}
		if at, ok := settle.Moment(s.At); ok {
			f.Clock, f.At = settle.Clock(at), seconds(at)
		}
		if bl.talk != nil {
			f.From, f.To, f.Found = bl.talk.Locate(s)
		}
		bl.facts = append(bl.facts, f)
		out = append(out, f)
	}
	return out
}

func seconds(d time.Duration) string {
	if d < 0 {
		return ""
	}
	return strconv.FormatFloat(d.Seconds(), 'f', 3, 64)
}

func (bl *builder) line(kind, lead, text, more string, said []schema.Said) line {
	id := "fact-" + strconv.Itoa(bl.lines)
	bl.lines++
	about := text
	if about == "" {
		about = lead
	}
	return line{ID: id, Main: settle.Plain(lead), Text: settle.Plain(text), More: settle.Plain(more), Facts: bl.said(said, id, kind, about)}
}

func (bl *builder) recipe(p *page, d *schema.Document) {
	if d.Yield != nil {
		p.Yield = settle.Plain(d.Yield.String())
	}
	p.Facts = bl.said(d.YieldSaid, "yield", "yield", "what it makes")
	groups := map[string]int{}
	for _, ing := range d.Ingredients {
		i, ok := groups[ing.Part]
		if !ok {
			i = len(p.Groups)
			groups[ing.Part] = i
			p.Groups = append(p.Groups, group{Name: settle.Plain(ing.Part)})
		}
		p.Groups[i].Lines = append(p.Groups[i].Lines, bl.ingredient(ing))
	}
	for _, s := range d.Steps {
		var more []string
		if len(s.Ways) > 0 {
			more = append(more, "only for: "+strings.Join(s.Ways, ", "))
		}
		if s.Optional {
			more = append(more, "if you like")
		}
		p.Steps = append(p.Steps, bl.line("step", quantities(s.Temperature, s.Time), s.Text, strings.Join(more, "; "), s.Said))
	}
	for _, s := range d.Storage {
		keeps := ""
		if s.Keeps != nil {
			keeps = s.Keeps.String()
		}
		p.Storage = append(p.Storage, bl.line("storage", keeps, joined(", ", s.What, placed(s.Place), s.How), "", s.Said))
	}
	for _, c := range d.Claims {
		p.Claims = append(p.Claims, bl.line("claim", "", c.Claim, "", c.Said))
	}
	for _, e := range d.Equipment {
		p.Equipment = append(p.Equipment, bl.line("equipment", "", e.Name, "", e.Said))
	}
	for _, a := range d.Allergens {
		p.Allergens = append(p.Allergens, settle.Plain(a.Name+": "+strings.Join(a.From, ", ")))
	}
	for _, c := range d.Cautions {
		p.Cautions = append(p.Cautions, bl.line("caution", "", c.Text, c.Source, c.Said))
	}
}

func quantities(lists ...[]schema.Quantity) string {
	var out []string
	for _, l := range lists {
		for _, q := range l {
			out = append(out, q.String())
		}
	}
	return strings.Join(out, ", ")
}

func placed(place string) string {
	switch place {
	case schema.Refrigerator, schema.Freezer:
		return "in the " + place
	case schema.RoomTemperature:
		return "at " + place
	}
	return place
}

func joined(sep string, parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, sep)
}

func (bl *builder) ingredient(ing schema.Ingredient) line {
	amount, absent := "", false
	switch {
	case ing.Amount != nil:
		amount = ing.Amount.String()
		if ing.Size != nil {
			amount += " (" + ing.Size.String() + ")"
		}
		if ing.SecondAmount != nil {
			amount += ", " + ing.SecondAmount.String()
		}
	case ing.ToTaste:
		amount = "to taste"
	case ing.Vague != "":
		amount, absent = "“"+ing.Vague+"”", true
	default:
		amount, absent = "not said", true
	}
	var more []string
	if ing.Optional {
		more = append(more, "if you like")
	}
	for _, s := range ing.Substitutes {
		or := "or "
		if s.Amount != nil {
			or += s.Amount.String() + " "
		}
		more = append(more, or+s.Name)
	}
	if len(ing.Ways) > 0 {
		more = append(more, "only for: "+strings.Join(ing.Ways, ", "))
	}
	if ing.Grams != nil {
		more = append(more, grams(ing.Grams))
	}
	l := bl.line("ingredient", amount, joined(", ", ing.Name, ing.Preparation), strings.Join(more, "; "), ing.Said)
	l.Absent = absent
	return l
}

func grams(g *schema.Grams) string {
	text := weight(g.Min)
	if g.Max != g.Min {
		text += "-" + weight(g.Max)
	}
	return text + " g by weight"
}

// weight writes grams to about as many places as a kitchen scale shows.
func weight(g float64) string {
	places := 0
	switch {
	case g < 1:
		places = 2
	case g < 10:
		places = 1
	}
	return strconv.FormatFloat(g, 'f', places, 64)
}

// kindRank decides which of two things of the same words shows.
var kindRank = map[string]int{"question": 0, "ingredient": 1, "yield": 2, "storage": 3, "claim": 4, "equipment": 5, "caution": 6, "step": 7}

// paragraphs writes the talk with its words marked. Where one thing's words
// lie in another's, the shorter run shows.
func (bl *builder) paragraphs(p *page) {
	if bl.talk == nil {
		return
	}
	t := bl.talk
	owner := make([]int, len(t.Words))
	for i := range owner {
		owner[i] = -1
	}
	anchors := map[int][]string{}
	for i, f := range bl.facts {
		if !f.Found {
			continue
		}
		anchors[f.From] = append(anchors[f.From], f.ID)
		for w := f.From; w < f.To; w++ {
			if o := owner[w]; o < 0 || bl.shorter(i, o) {
				owner[w] = i
			}
		}
	}
	for i, c := range t.Cues {
		para := paragraph{ID: "cue-" + strconv.Itoa(i), Voice: settle.Plain(c.Voice)}
		if c.Start >= 0 {
			para.Clock = settle.Clock(c.Start)
		}
		for w := c.First; w < c.Last && w < len(t.Words); {
			end := w + 1
			for end < c.Last && owner[end] == owner[w] && len(anchors[end]) == 0 {
				end++
			}
			pc := piece{Anchors: anchors[w], From: w, To: end}
			words := make([]string, 0, end-w)
			for _, word := range t.Words[w:end] {
				words = append(words, settle.Plain(word.Text))
			}
			pc.Text = strings.Join(words, " ")
			if o := owner[w]; o >= 0 {
				f := bl.facts[o]
				pc.Home, pc.Kind, pc.About, pc.At = f.home, f.kind, f.About, seconds(t.Words[w].At)
			}
			para.Pieces = append(para.Pieces, pc)
			w = end
		}
		if len(para.Pieces) > 0 {
			p.Talk = append(p.Talk, para)
		}
	}
}

func (bl *builder) shorter(a, b int) bool {
	x, y := bl.facts[a], bl.facts[b]
	if n, m := x.To-x.From, y.To-y.From; n != m {
		return n < m
	}
	return kindRank[x.kind] < kindRank[y.kind]
}

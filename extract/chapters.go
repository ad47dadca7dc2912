package extract

import (
	"strings"

	"quern/schema"
)

// minChapter is the least length of a chapter.
const minChapter = 10e9 // nanoseconds

// introduction is the title of what is told before anything is done.
const introduction = "Introduction"

// findChapters cuts the talk at its turns: the introduction, each part, each
// way, storage, the end.
func (t *talk) findChapters() {
	if !t.n.Timed || len(t.toks) == 0 {
		return
	}
	type turn struct {
		tok   int
		title string
	}
	for d, doc := range t.docs {
		from, to := t.dishes[d].tok, t.dishEnd(d)
		var turns []turn
		turns = append(turns, turn{from, introduction})
		firstStep := -1
		for i := from; i < to; i++ {
			if t.actionAt[i] >= 0 && t.actions[t.actionAt[i]].step != nil {
				firstStep = i
				break
			}
		}
		for i := range t.sents {
			s := &t.sents[i]
			if s.First < from || s.First >= to {
				continue
			}
			for _, p := range t.parts {
				if p.tok == s.First && p.tok > from {
					turns = append(turns, turn{s.First, title(t.partNames[p.name])})
				}
			}
			for _, w := range t.ways {
				if w.tok == s.First && w.name >= 0 {
					turns = append(turns, turn{s.First, title(t.wayNames[w.name])})
				}
			}
			if s.kind == storing && (i == 0 || t.sents[i-1].kind != storing) && s.First > firstStep {
				turns = append(turns, turn{s.First, "Storing"})
			}
			if s.kind == figures && (i == 0 || t.sents[i-1].kind != figures) {
				turns = append(turns, turn{s.First, "Figures"})
			}
		}
		if firstStep > from {
			begin := t.sentence(firstStep).First
			found := false
			for _, x := range turns[1:] {
				if x.tok <= begin {
					found = true
				}
			}
			if !found {
				turns = append([]turn{turns[0], {begin, "Making it"}}, turns[1:]...)
			}
		}
		last := int64(-1 << 62)
		prev := ""
		for _, x := range turns {
			at := int64(t.n.Words[t.toks[x.tok].Word].At)
			if len(doc.Chapters) == 0 && d == 0 {
				at = 0
			}
			if at-last < int64(minChapter) && len(doc.Chapters) > 0 {
				if c := &doc.Chapters[0]; len(doc.Chapters) == 1 && c.Title == introduction {
					c.Title, prev = x.title, x.title // what begins at once needs no introduction
				}
				continue
			}
			if x.title == prev {
				continue
			}
			if int64(t.n.Length)-at < int64(minChapter) && len(doc.Chapters) > 0 {
				continue
			}
			stampAt := t.at(x.tok)
			if at == 0 {
				stampAt = "00:00:00.000"
			}
			doc.Chapters = append(doc.Chapters, schema.Chapter{At: stampAt, Title: x.title})
			last, prev = at, x.title
		}
	}
}

func title(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

package review

import (
	"bytes"
	"errors"
	"fmt"
	"mime"
	"net/http"
	"strconv"
	"strings"

	"quern/internal/derive"
	"quern/internal/merge"
	"quern/internal/settle"
	"quern/schema"
)

// mostForm is the largest form taken, in bytes.
const mostForm = 1 << 20

// mostUndo is how many saves of a file can be taken back.
const mostUndo = 100

// typed is what came with a save: answers by the key of their question.
type typed map[string]string

// form reads a posted form of the page.
func form(w http.ResponseWriter, r *http.Request) (version string, answers typed, ok bool) {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "application/x-www-form-urlencoded" {
		http.Error(w, "a change must come from the page itself", http.StatusUnsupportedMediaType)
		return "", nil, false
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	err = r.ParseForm()
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		http.Error(w, "more than 1 MB of answers at once; nothing was written: shorten them", http.StatusRequestEntityTooLarge)
		return "", nil, false
	}
	if err != nil {
		http.Error(w, "that could not be read", http.StatusBadRequest)
		return "", nil, false
	}
	answers = typed{}
	for i := range len(r.PostForm) {
		n := strconv.Itoa(i)
		key := r.PostForm.Get("key-" + n)
		if key == "" {
			continue
		}
		answers[key] = r.PostForm.Get("answer-" + n)
		if r.PostForm.Get("as-said") == n {
			answers[key] = settle.AsSaid
		}
	}
	return r.PostForm.Get("version"), answers, true
}

// errMoved says that the page a save came from is older than the file.
var errMoved = errors.New("the file has changed since this page was read")

// save writes the answers of a form. What can't be read is told beside its
// field, and the rest is written.
func (s *Server) save(w http.ResponseWriter, r *http.Request, b *book, doc int) {
	version, answers, ok := form(w, r)
	if !ok {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	refused, saved, err := s.write(b, doc, version, answers)
	switch {
	case errors.Is(err, errMoved), errors.Is(err, merge.ErrChanged):
		s.render(w, http.StatusConflict, b, doc, page{typed: answers, Alert: fmt.Sprintf("Nothing was written: %s was changed meanwhile, "+
			"in another window or by another program. Below is the recipe as it is now, and what you typed is still in its fields. "+
			"Look it over, then save again.", settle.Plain(b.name))})
	case err != nil:
		s.render(w, http.StatusInternalServerError, b, doc, page{typed: answers, Alert: "Nothing was written: " + settle.Plain(err.Error())})
	case len(refused) > 0:
		note := "Not saved yet: see the message at the field."
		if saved > 0 {
			note = fmt.Sprintf("%s saved; the rest is not: see the message at the field.", answersIn(saved))
		}
		s.render(w, http.StatusUnprocessableEntity, b, doc, page{typed: answers, refused: refused, Alert: note})
	default:
		http.Redirect(w, r, "/"+s.token+"/recipe/"+s.numbers(b, doc)+"?saved="+strconv.Itoa(saved), http.StatusSeeOther)
	}
}

func answersIn(n int) string {
	if n == 1 {
		return "1 answer"
	}
	return strconv.Itoa(n) + " answers"
}

// write puts answers into the file. The book must be locked.
func (s *Server) write(b *book, doc int, version string, answers typed) (refused map[string]string, saved int, err error) {
	docs, err := s.read(b)
	if err != nil {
		return nil, 0, err
	}
	if version != b.file.Version() {
		return nil, 0, errMoved
	}
	if doc >= len(docs) {
		return nil, 0, errMoved
	}
	refused = map[string]string{}
	before := b.file.Data()
	text, err := merge.Edit(b.name, before, b.opt, func(docs []*schema.Document) error {
		d := docs[doc]
		derive.Apply(d, b.opt) // the questions on the page are those that follow from the document
		for _, q := range settle.Open([]*schema.Document{d}) {
			answer, given := answers[q.Key]
			if !given || strings.TrimSpace(answer) == "" {
				continue
			}
			i, found := settle.Find(d, q.Key)
			if !found {
				continue
			}
			if err := settle.Answer(d, i, answer, b.opt.Own); err != nil {
				refused[q.Key] = err.Error()
				continue
			}
			saved++
		}
		return nil
	})
	if err != nil {
		return nil, 0, err
	}
	if saved == 0 || bytes.Equal(text, before) {
		return refused, saved, nil
	}
	if err := b.file.Write(text); err != nil {
		return nil, 0, err
	}
	b.undo = append(b.undo, change{before, text})
	if len(b.undo) > mostUndo {
		b.undo = b.undo[1:]
	}
	return refused, saved, nil
}

// takeBack undoes the last save of this review.
func (s *Server) takeBack(w http.ResponseWriter, r *http.Request, b *book, doc int) {
	version, answers, ok := form(w, r)
	if !ok {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if _, err := b.file.Refresh(); err != nil {
		s.render(w, http.StatusInternalServerError, b, doc, page{typed: answers, Alert: settle.Plain(err.Error())})
		return
	}
	if len(b.undo) == 0 {
		s.render(w, http.StatusConflict, b, doc, page{typed: answers, Alert: "There is nothing to take back."})
		return
	}
	last := b.undo[len(b.undo)-1]
	if version != b.file.Version() || !bytes.Equal(last.after, b.file.Data()) {
		s.render(w, http.StatusConflict, b, doc, page{typed: answers, Alert: fmt.Sprintf(
			"Nothing was taken back: %s was changed meanwhile, in another window or by another program. Below is the recipe as it is now.", settle.Plain(b.name))})
		return
	}
	if err := b.file.Write(last.before); err != nil {
		s.render(w, http.StatusInternalServerError, b, doc, page{typed: answers, Alert: "Nothing was written: " + settle.Plain(err.Error())})
		return
	}
	b.undo = b.undo[:len(b.undo)-1]
	http.Redirect(w, r, "/"+s.token+"/recipe/"+s.numbers(b, doc)+"?saved=undo", http.StatusSeeOther)
}

func (s *Server) numbers(b *book, doc int) string {
	for i, x := range s.books {
		if x == b {
			return strconv.Itoa(i) + "/" + strconv.Itoa(doc)
		}
	}
	return ""
}

package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"quern/internal/derive"
	"quern/internal/merge"
	"quern/internal/settle"
	"quern/schema"
)

// fillCommand settles open flags from the command line or in a dialogue.
func fillCommand() *cobra.Command {
	var foods string
	cmd := &cobra.Command{
		Use:   "fill FILE [NAME=AMOUNT …] [--foods FILE]",
		Short: "give the amounts that were never said, and settle other flags",
		Long: `quern fill puts your answers into a recipe document and works out again what
follows from them: weights, macros, allergens, flags. Notes, order and all else
you have in the file stay; the file as it was before is kept as FILE~.

With NAME=AMOUNT it sets them and ends: all of them, or none when one can't be
read. NAME is an ingredient, as much of its name as only it has, an ingredient
of one part as 'butter (glaze)', yield, or what a flag is about. When several
fit, it asks which.

Without, it asks each open flag in order of the recording. Each answer is in
the file before the next question comes:
  Enter   leave the flag open
  ?       show more of the talk around it; again for more still
  q       stop; what was answered is kept
  as said settle the flag and change nothing`,
		Example: `  quern fill bars.yaml
  quern fill bars.yaml butter='225 g' yield='24 cookies'
  quern fill bars.yaml 'butter (glaze)'='50 g' salt='to taste'`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("fill wants the FILE of a recipe document; for example: quern fill bars.yaml butter='225 g'")
			}
			if args[0] == "-" {
				return errors.New("fill changes a file; name it")
			}
			for _, a := range args[1:] {
				if name, _, ok := strings.Cut(a, "="); !ok || strings.TrimSpace(name) == "" {
					return fmt.Errorf("%q is not NAME=AMOUNT; write for example butter='225 g'", a)
				}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			t := newTerminal(cmd.ErrOrStderr())
			if _, err := checkedDocuments(cmd, t, args[0]); err != nil {
				return err
			}
			file, err := merge.Open(args[0])
			if err != nil {
				return fileError(args[0], err)
			}
			own, err := ownFoods(foods, args[0])
			if err != nil {
				return err
			}
			f := &filling{cmd: cmd, file: file, opt: derive.Options{Own: own}, t: newTerminal(cmd.OutOrStdout()), lines: readLines(cmd.Context(), cmd.InOrStdin())}
			if len(args) > 1 {
				return f.set(args[1:])
			}
			return f.ask()
		},
	}
	cmd.Flags().StringVar(&foods, "foods", "", "`FILE` of your own foods; foods.yaml beside the recipe if left out")
	return cmd
}

// filling is one run of quern fill.
type filling struct {
	cmd   *cobra.Command
	file  *merge.File
	t     *terminal
	opt   derive.Options
	lines func() (string, error)
}

// readLines gives the lines of a reader one by one; io.EOF after the last,
// errStopped once the person pressed Ctrl-C.
func readLines(ctx context.Context, in io.Reader) func() (string, error) {
	type line struct {
		text string
		err  error
	}
	var c chan line
	return func() (string, error) {
		if c == nil {
			c = make(chan line)
			go func() {
				r := bufio.NewReader(in)
				for {
					text, err := r.ReadString('\n')
					if text != "" {
						err = nil
					}
					select {
					case c <- line{strings.TrimRight(text, "\r\n"), err}:
					case <-ctx.Done():
						return
					}
					if err != nil {
						return
					}
				}
			}()
		}
		select {
		case l := <-c:
			return l.text, l.err
		case <-ctx.Done():
			return "", errStopped
		}
	}
}

func (f *filling) docs() ([]*schema.Document, error) {
	return schema.ReadAll(f.file.Path(), f.file.Data())
}

func (f *filling) say(format string, args ...any) {
	f.t.line(printable(fmt.Sprintf(format, args...)))
}

// set carries out the NAME=AMOUNT arguments, all or none.
func (f *filling) set(pairs []string) error {
	docs, err := f.docs()
	if err != nil {
		return err
	}
	names, values := make([]string, len(pairs)), make([]string, len(pairs))
	wrong := 0
	for i, p := range pairs {
		name, value, _ := strings.Cut(p, "=")
		full, err := settle.Resolve(docs, strings.TrimSpace(name))
		var many *settle.ManyError
		if errors.As(err, &many) {
			full, err = f.which(many)
		}
		if errors.Is(err, errStopped) {
			return err
		}
		if err == nil {
			// A trial on a copy, so that every mistake is told at once.
			var trial []*schema.Document
			if trial, err = f.docs(); err == nil {
				err = settle.Set(trial, full, value, f.opt.Own)
			}
		}
		if err != nil {
			wrong++
			newTerminal(f.cmd.ErrOrStderr()).failure(err)
		}
		names[i], values[i] = full, value
	}
	if wrong > 0 {
		return wrongCall("%s: nothing was written; see the lines above", f.file.Path())
	}
	err = f.write(func(docs []*schema.Document) error {
		for i := range names {
			if err := settle.Set(docs, names[i], values[i], f.opt.Own); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	for i := range names {
		f.say("%s: %s", names[i], strings.Join(strings.Fields(values[i]), " "))
	}
	if docs, err = f.docs(); err != nil {
		return err
	}
	for _, d := range docs {
		f.figures(d, "", len(docs) > 1)
	}
	f.left(docs)
	return nil
}

// which asks which of several things a name means.
func (f *filling) which(many *settle.ManyError) (string, error) {
	f.say("%q could be any of these:", many.Name)
	for i, c := range many.Choices {
		f.say("  %d  %s", i+1, c)
	}
	for {
		f.prompt("which number? ")
		line, err := f.lines()
		if errors.Is(err, io.EOF) {
			f.t.line("")
			return "", many
		}
		if err != nil {
			return "", err
		}
		line = strings.TrimSpace(line)
		if n, err := strconv.Atoi(line); err == nil && n >= 1 && n <= len(many.Choices) {
			return many.Choices[n-1], nil
		}
		for _, c := range many.Choices {
			if strings.EqualFold(c, line) {
				return c, nil
			}
		}
		if line == "" || line == "q" {
			return "", many
		}
		f.say("%q is none of 1 to %d", line, len(many.Choices))
	}
}

func (f *filling) prompt(text string) {
	// A terminal that is gone is noticed when the answer is read.
	_, _ = io.WriteString(f.t.w, printable(text))
}

// write changes the document and puts it on disk.
func (f *filling) write(change func([]*schema.Document) error) error {
	text, err := merge.Edit(f.file.Path(), f.file.Data(), f.opt, change)
	if err != nil {
		return err
	}
	return f.file.Write(text)
}

// figures shows the macros line of a recipe.
func (f *filling) figures(d *schema.Document, indent string, named bool) {
	line := settle.Figures(d)
	if named {
		line = d.Title + ": " + line
	}
	f.t.line(indent + f.t.paint(faint, printable(line)))
}

func (f *filling) left(docs []*schema.Document) {
	f.say("%s: %s", f.file.Path(), openFlags(len(settle.Open(docs))))
}

// ask puts the open flags to the person, one by one.
func (f *filling) ask() error {
	if _, err := f.docs(); err != nil {
		return err
	}
	// The flags as they follow from the document now, which may be edited by hand.
	if err := f.write(nil); err != nil {
		return err
	}
	docs, err := f.docs()
	if err != nil {
		return err
	}
	open := settle.Open(docs)
	if len(open) == 0 {
		f.left(docs)
		return nil
	}
	f.say("%s in %s. Enter skips, ? shows more of the talk, q stops.", openFlags(len(open)), f.file.Path())
	passed := map[string]bool{} // questions not to come back to
	for n := 1; ; n++ {
		q, ok := next(docs, passed)
		if !ok {
			break
		}
		f.t.line("")
		f.question(q, n, n+waiting(docs, passed)-1, len(docs) > 1)
		more, err := f.answer(q, passed)
		if err != nil {
			return err
		}
		if docs, err = f.docs(); err != nil {
			return err
		}
		if !more {
			break
		}
	}
	f.t.line("")
	f.left(docs)
	return nil
}

func keyOf(q settle.Question) string { return strconv.Itoa(q.Doc) + "\x00" + q.Key }

func next(docs []*schema.Document, passed map[string]bool) (settle.Question, bool) {
	for _, q := range settle.Open(docs) {
		if !passed[keyOf(q)] {
			return q, true
		}
	}
	return settle.Question{}, false
}

func waiting(docs []*schema.Document, passed map[string]bool) int {
	n := 0
	for _, q := range settle.Open(docs) {
		if !passed[keyOf(q)] {
			n++
		}
	}
	return n
}

// question shows one flag: where it stands, what it asks, the words.
func (f *filling) question(q settle.Question, n, of int, titled bool) {
	head := fmt.Sprintf("%d/%d  ", n, of)
	if len(q.Said) > 0 && q.Said[0].At != "" {
		head += shortMoment(q.Said[0].At) + "  "
	}
	ask := f.t.paint(strong, printable(q.Ask))
	if titled {
		ask = printable(q.Title) + ": " + ask
	}
	f.t.line(printable(head) + ask)
	for _, s := range q.Said {
		if s.Quote != "" {
			at := ""
			if s.At != "" && len(q.Said) > 1 {
				at = shortMoment(s.At) + " "
			}
			f.t.line("     " + f.t.paint(faint, printable(at+`"`+s.Quote+`"`)))
		}
	}
	for _, e := range q.Evidence {
		f.t.line("     " + f.t.paint(faint, printable(e)))
	}
}

// answer reads what the person types until the question is answered, skipped
// or ended with q, when more is false.
func (f *filling) answer(q settle.Question, passed map[string]bool) (more bool, err error) {
	around := 20 * time.Second
	for {
		f.prompt("     > ")
		line, err := f.lines()
		if errors.Is(err, io.EOF) {
			f.t.line("")
			return false, nil
		}
		if err != nil {
			f.t.line("")
			return false, err
		}
		switch line = strings.TrimSpace(line); strings.ToLower(line) {
		case "":
			passed[keyOf(q)] = true
			return true, nil
		case "q":
			return false, nil
		case "?":
			f.talk(q, around)
			around *= 2
			continue
		}
		done, err := f.put(q, line, passed)
		if err != nil || done {
			return true, err
		}
	}
}

// put writes an answer down. done is false where it could not be taken and the
// question stands.
func (f *filling) put(q settle.Question, line string, passed map[string]bool) (done bool, err error) {
	before, err := f.docs()
	if err != nil {
		return false, err
	}
	var refused error
	err = f.write(func(docs []*schema.Document) error {
		i := -1
		if q.Doc < len(docs) {
			if at, ok := settle.Find(docs[q.Doc], q.Key); ok && docs[q.Doc].Flags[at].Settled == "" {
				i = at
			}
		}
		if i < 0 {
			return errGone
		}
		refused = settle.Answer(docs[q.Doc], i, line, f.opt.Own)
		return refused
	})
	switch {
	case errors.Is(err, errGone):
		f.say("     that question is settled in the file already")
		return true, nil
	case refused != nil:
		f.say("     %v", refused)
		f.say("     it takes %s", q.Takes)
		return false, nil
	case errors.Is(err, merge.ErrChanged):
		f.say("     %v", err)
		if _, err := f.file.Refresh(); err != nil {
			return false, err
		}
		if _, err := f.docs(); err != nil {
			return false, err
		}
		f.say("     the file is read again; type the answer once more to put it there")
		return false, nil
	case err != nil:
		return false, err
	}
	docs, err := f.docs()
	if err != nil {
		return false, err
	}
	if len(settle.Open(docs)) >= len(settle.Open(before)) {
		passed[keyOf(q)] = true // it opened another question, or this one again
	}
	f.figures(docs[q.Doc], "     ", len(docs) > 1)
	return true, nil
}

// errGone means that the flag to answer is not open any more.
var errGone = errors.New("the flag is not open any more")

// talk shows the talk around a question.
func (f *filling) talk(q settle.Question, by time.Duration) {
	docs, err := f.docs()
	if err == nil && q.Doc < len(docs) {
		var talk *settle.Talk
		if talk, err = settle.FindTalk(f.file.Path(), docs[q.Doc].Source); err == nil {
			if len(q.Said) == 0 {
				f.say("     this question has no moment in the talk")
				return
			}
			if talk.Changed {
				f.say("     (the transcript has changed since the recipe was read from it)")
			}
			for _, s := range q.Said {
				if text, ok := talk.Around(s, by); ok {
					for _, l := range wrap("… "+text+" …", 72) {
						f.t.line("     " + f.t.paint(faint, printable(l)))
					}
				} else {
					f.say("     those words are not in the transcript any more")
				}
			}
			return
		}
	}
	f.say("     %v", err)
}

// wrap breaks a text into lines of at most width characters, but never a word.
func wrap(text string, width int) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(text) {
		if line != "" && len([]rune(line))+1+len([]rune(w)) > width {
			lines = append(lines, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += w
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

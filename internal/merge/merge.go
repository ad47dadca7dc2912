// Package merge keeps what a person did to a recipe document when the
// document is written again.
//
// Three texts meet: the base (what the program wrote last time), hers (the
// file as it is now) and the program's new text. A fact only she touched stays
// as she has it, a fact only the program changed comes in, and where both
// changed the same fact hers stays and a flag asks about it, showing both.
// Ingredients are the same ingredient when their id or name is, steps when
// their moment or text is, flags when their kind and subject are.
//
// Her file is edited, not rewritten: every line nothing happened to keeps its
// bytes, with its comments, blank lines and order. Merge does that for texts,
// Edit for a change made through the document's Go types, Save and File for
// files on disk, which are replaced in one move with the old one kept.
package merge

import (
	"fmt"
	"strings"

	"quern/schema"
)

// Clash is one fact that she and the program both changed, differently. The
// merged document keeps hers.
type Clash struct {
	Title  string        // of the recipe, as she has it
	Field  string        // "ingredients[butter].amount", "yield"
	About  string        // the ingredient, step or field in words: the subject of the flag
	Mine   string        // what the document has and keeps
	Theirs string        // what the recording gives now; "" where it gives the thing no longer
	Kind   string        // the flag kind it becomes
	Said   []schema.Said // the moments of the program's reading
}

// String is the clash in one line, for a terminal.
func (c Clash) String() string {
	if c.Theirs == "" {
		return fmt.Sprintf("%s: kept as you have it; the recording no longer gives it", c.Field)
	}
	return fmt.Sprintf("%s: kept %s; the recording now gives %s", c.Field, c.Mine, c.Theirs)
}

// Flag is the question the clash puts to a person. Its evidence holds both
// readings.
func (c Clash) Flag() schema.Flag {
	f := schema.Flag{Kind: c.Kind, Subject: c.About, Said: c.Said, Evidence: []string{yours + c.Mine}}
	if c.Theirs == "" {
		f.Ask = fmt.Sprintf("%s: you changed it and the recording no longer gives it; keep it?", brief(c.About))
		return f
	}
	f.Evidence = append(f.Evidence, recorded+c.Theirs)
	f.Ask = fmt.Sprintf("%s: you have %s and the recording now gives %s; which holds?", brief(c.About), brief(c.Mine), brief(c.Theirs))
	return f
}

// How the two readings stand in a flag's evidence.
const (
	yours    = "yours: "
	recorded = "the recording: "
)

// Readings gives the two readings of a flag that Merge raised: what the
// document has and what the recording gives, "" where it gives the thing no
// longer. ok is false for other flags.
func Readings(f schema.Flag) (mine, theirs string, ok bool) {
	for _, e := range f.Evidence {
		if text, found := strings.CutPrefix(e, yours); found {
			mine, ok = text, true
		}
		if text, found := strings.CutPrefix(e, recorded); found {
			theirs = text
		}
	}
	return mine, theirs, ok
}

// brief cuts a long value so that a question stays one line.
func brief(s string) string {
	const most = 60
	s = strings.TrimSuffix(oneLine(s), ".")
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return strings.TrimSpace(string(r[:most])) + "…"
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// Merge works the program's changes from base to theirs into mine and returns
// the new text with the clashes found, in document order. The texts are YAML
// streams of recipe documents; base may be empty where what the program wrote
// last is not known: then everything in mine counts as hers. Texts that are
// not YAML, or whose documents are not mappings, are an error naming which.
func Merge(base, mine, theirs []byte) (merged []byte, clashes []Clash, err error) {
	b, err := split("the last written document", base)
	if err != nil {
		return nil, nil, err
	}
	m, err := split("the document on disk", mine)
	if err != nil {
		return nil, nil, err
	}
	t, err := split("the new document", theirs)
	if err != nil {
		return nil, nil, err
	}
	pairs := pairSheets(b.sheets, m.sheets, t.sheets)
	w := &writer{eol: m.eol, bom: m.bom}
	for _, p := range pairs {
		switch {
		case p.mine == nil && p.base != nil:
			continue // she took the recipe out
		case p.mine == nil:
			w.raw(p.theirs)
		case p.theirs == nil || p.theirs.root == nil:
			w.raw(p.mine)
		case p.mine.root == nil:
			w.raw(p.theirs)
		default:
			text, found, err := mergeSheet(p)
			if err != nil {
				return nil, nil, err
			}
			clashes = append(clashes, found...)
			w.text(p.mine, text)
		}
	}
	return w.bytes(), clashes, nil
}

func mergeSheet(p sheetPair) (string, []Clash, error) {
	var baseRoot *schema.Node
	if p.base != nil {
		baseRoot = p.base.root
	}
	j := &joiner{title: valueOf(p.mine.root, "title"), ids: idNames(baseRoot, p.mine.root, p.theirs.root)}
	root := j.mapping(baseRoot, p.mine.root, p.theirs.root, place{})
	j.rescue(root)
	j.tidyUses(root)
	j.raise(root)
	text, err := p.mine.write(root)
	if err != nil {
		return "", nil, fmt.Errorf("write the merged document %q: %w", j.title, err)
	}
	return text, j.clashes, nil
}

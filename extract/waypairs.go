package extract

import "strings"

// A side of a choice may be called by more than one word of a class ("in the big pot on the
// stove"), and its telling may be headed by its number alone ("First road.", "The second one.").

// bestTurns gives the turns of a choice: under the labels nearest to where its sides part, then
// under the others that were said, at last under ordinals. Of several the one whose heads take up
// the most labels.
func (t *talk) bestTurns(c *choice) (*choice, []wayTurn) {
	best, turns := c, t.turnsOf(c)
	for _, v := range c.variants() {
		if other := t.turnsOf(v); len(other) > 1 && labelHits(v, other) > labelHits(best, turns) {
			best, turns = v, other
		}
	}
	if len(turns) < 2 {
		turns = t.ordinalTurns(c)
	}
	return best, turns
}

// labelHits tells how well the turns take up the labels of a choice: best where a head is the
// label and nothing else.
func labelHits(c *choice, turns []wayTurn) int {
	n := 0
	for i := range turns {
		h := &turns[i]
		if h.class < 0 {
			continue
		}
		l := c.options[h.key[0]-'0'].labels[h.class].name
		switch {
		case l == h.name:
			n += 3
		case allOf(strings.Fields(h.name), strings.Fields(l)):
			n += 2
		default:
			n++
		}
	}
	return n
}

// variants gives the choice with the other places that were said of a side, where there are any.
func (c *choice) variants() []*choice {
	var out []*choice
	for side := range c.options {
		o := &c.options[side]
		for _, l := range []wayLabel{o.before[placeClass], o.after[placeClass]} {
			if l.name == "" || o.labels[placeClass].name == "" || sameLabel(&l, &c.options[1-side].labels[placeClass]) {
				continue
			}
			v := *c
			v.options = append([]wayOption(nil), c.options...)
			v.options[side].labels[placeClass] = l
			out = append(out, &v)
		}
	}
	return out
}

// ordinals tell by their order which side of a choice is told.
var ordinals = map[string]int{"first": 0, "second": 1, "other": 1}

// ordinalTurns finds the sides told under their numbers; nil where not both are.
func (t *talk) ordinalTurns(c *choice) []wayTurn {
	if !t.punctuated {
		return nil
	}
	var out []wayTurn
	var told [2]bool
	for k := range t.sents {
		s := &t.sents[k]
		if s.First < c.last && !(s.First > c.first && t.sentOf[s.First] > t.sentOf[c.first]) || s.kind == storing || s.kind == figures || s.recap {
			continue
		}
		side, ok := t.ordinalHead(s)
		if !ok || s.First < c.last && !t.tellsAlready(s, c) && s.Len() > 4 {
			continue
		}
		told[side] = true
		out = append(out, wayTurn{tok: s.First, key: string(rune('0' + side)), class: -1})
	}
	if !told[0] || !told[1] {
		return nil
	}
	for k := range c.options[0].labels {
		if c.options[0].labels[k].name != "" && c.options[1].labels[k].name != "" {
			out[0].class = k
			break
		}
	}
	return out
}

// ordinalHead reads a head that is nothing but a number of a way, up to a mark: "First road.",
// "Okay, the second one:".
func (t *talk) ordinalHead(s *sentence) (int, bool) {
	i := s.First
	for i < s.Last && headWords[t.norm(i)] && t.norm(i) != "first" && t.norm(i) != "second" || i < s.Last && articleLike[t.norm(i)] && t.norm(i) != "other" {
		i++
	}
	side, ok := ordinals[t.norm(i)]
	if !ok || i+1 >= s.Last || t.toks[i].After != 0 || !wayNoun[t.norm(i+1)] || t.norm(i+1) == "side" {
		return 0, false
	}
	return side, i+2 >= s.Last || t.toks[i+1].After != 0
}

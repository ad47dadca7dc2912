package extract

import (
	"strings"

	"quern/schema"
)

var places = map[string]string{
	"fridge": schema.Refrigerator, "refrigerator": schema.Refrigerator, "icebox": schema.Refrigerator, "refrigerate": schema.Refrigerator, "refrigerated": schema.Refrigerator, "chiller": schema.Refrigerator,
	"freezer": schema.Freezer, "freeze": schema.Freezer, "frozen": schema.Freezer, "freezes": schema.Freezer, "freezing": schema.Freezer, "deep-freeze": schema.Freezer,
	"counter": schema.RoomTemperature, "cupboard": schema.RoomTemperature, "pantry": schema.RoomTemperature, "countertop": schema.RoomTemperature, "bench": schema.RoomTemperature,
	"larder": schema.RoomTemperature, "benchtop": schema.RoomTemperature, "worktop": schema.RoomTemperature, "shelf": schema.RoomTemperature,
}

// findStorage reads how long the dish keeps, and where. A place holds for
// the durations after it until the next; a duration before its place takes
// the place named in the same breath.
func (t *talk) findStorage() {
	place, placeAt := "", -1
	lastSent := -1
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind != storing {
			continue
		}
		if lastSent >= 0 && t.sents[lastSent].para+1 < s.para {
			place, placeAt = "", -1
		}
		lastSent = k
		found := 0
		for i := s.First; i < s.Last; i++ {
			if p, n := t.placeAt(i); n > 0 {
				if t.deniedPlace(s, i) {
					place, placeAt = "", -1
					continue
				}
				place, placeAt = p, i
				continue
			}
			q := t.quantityAt[i]
			if q < 0 || t.quantities[q].First != i {
				continue
			}
			qq := &t.quantities[q]
			keeps := qq.value()
			switch {
			case qq.kind == duration && (qq.unit == "day" || qq.unit == "week" || qq.unit == "month" || qq.unit == "hour" && t.has(s.First, s.Last, "keep", "keeps", "last", "lasts") >= 0 && !qq.overnite):
			case qq.kind == vague && qq.vkind == "time":
				keeps = &schema.Quantity{Vague: qq.words}
			default:
				continue
			}
			if qq.void || t.norm(qq.Last) == "ago" || t.denied(s, i) {
				continue
			}
			at := place
			// the place named right after: "a week in the fridge"
			if p := t.placeSoon(qq.Last, s.Last); p != "" {
				at = p
			}
			if at == "" {
				// the place may follow in the next sentence, or be named later in this one
				for j := qq.Last; j < s.Last; j++ {
					if p, n := t.placeAt(j); n > 0 && !t.deniedPlace(s, j) {
						at = p
						break
					}
				}
			}
			if at == "" && t.has(s.First, s.Last, "keep", "keeps", "good", "last", "lasts") >= 0 {
				at = schema.RoomTemperature
				if t.has(s.First, s.Last, "counter", "tin", "out", "wrapped", "box", "jar") < 0 {
					at = ""
				}
			}
			if at == "" {
				continue
			}
			t.addStorage(at, keeps, s, qq.First, qq.Last)
			found++
		}
		if found == 0 && place == schema.Freezer && placeAt >= s.First {
			if t.has(s.First, s.Last, "can freeze", "could freeze", "freezes well", "freeze well", "freezes beautifully", "freeze beautifully", "freeze it too", "freeze them too") >= 0 && !t.denied(s, placeAt) && !t.soonStored(k, schema.Freezer) {
				t.addStorage(schema.Freezer, nil, s, placeAt, placeAt+1)
			}
		}
	}
}

// soonStored reports whether the next sentence gives this place its time.
func (t *talk) soonStored(k int, place string) bool {
	if k+1 >= len(t.sents) || t.sents[k+1].kind != storing {
		return false
	}
	s := &t.sents[k+1]
	for i := s.First; i < s.Last; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind == duration {
			return true
		}
	}
	return false
}

func (t *talk) placeAt(i int) (string, int) {
	w := t.norm(i)
	if p, ok := places[w]; ok {
		if w == "frozen" && t.norm(i-1) == "from" {
			return "", 0
		}
		return p, 1
	}
	if w == "room" && t.norm(i+1) == "temperature" {
		return schema.RoomTemperature, 2
	}
	if (w == "airtight" || w == "cake" || w == "biscuit" || w == "cookie") && (t.norm(i+1) == "tin" || t.norm(i+1) == "jar") {
		return schema.RoomTemperature, 2
	}
	if w == "tin" && (t.norm(i-1) == "a" || t.norm(i-1) == "the") && (t.norm(i-2) == "in") {
		return schema.RoomTemperature, 1
	}
	if w == "left" && t.norm(i+1) == "out" || w == "out" && t.norm(i+1) == "on" {
		return "", 0
	}
	return "", 0
}

// placeSoon gives a place that follows a duration in the same breath.
func (t *talk) placeSoon(i, end int) string {
	for j := i; j < end && j < i+6; j++ {
		if t.toks[j-1].After != 0 {
			return ""
		}
		if p, n := t.placeAt(j); n > 0 {
			switch t.norm(j) {
			case "freeze", "freezes", "freezing", "frozen":
				return ""
			}
			return p
		}
		if w := t.norm(j); w == "and" || w == "or" || w == "then" {
			return ""
		}
	}
	return ""
}

// deniedPlace reports whether the place at i is one not to use: "not the
// fridge", "don't freeze it".
func (t *talk) deniedPlace(s *sentence, i int) bool {
	for k := i - 1; k >= s.First && k >= i-5; k-- {
		if t.toks[k].After != 0 {
			return false
		}
		switch t.norm(k) {
		case "not", "don't", "never", "wouldn't", "no", "can't", "doesn't", "won't":
			return true
		}
	}
	return false
}

func (t *talk) denied(s *sentence, i int) bool {
	for k := i - 1; k >= s.First && k >= i-6; k-- {
		switch t.norm(k) {
		case "don't", "never", "wouldn't", "can't", "doesn't":
			return true
		}
		if t.toks[k].After != 0 {
			return false
		}
	}
	return false
}

func (t *talk) addStorage(place string, keeps *schema.Quantity, s *sentence, a, b int) {
	st := schema.Storage{Place: place, Keeps: keeps, Said: []schema.Said{t.said(s.First, s.Last)}}
	if len(st.Said[0].Quote) > 160 {
		st.Said[0] = t.said(max(s.First, a-10), min(s.Last, b+6))
	}
	for _, m := range t.mentionsIn(s.First, s.Last) {
		st.What = t.mentions[m].name
		break
	}
	if st.What == "" {
		for i := s.First; i < s.Last; i++ {
			if n := t.madeAt[i]; n > 0 {
				st.What = t.phrase(i, i+int(n))
				break
			}
		}
	}
	var how []string
	for _, w := range []string{"wrapped", "covered", "airtight", "lidded", "sealed", "jar", "container", "tub", "bag", "box"} {
		if t.has(s.First, s.Last, w) >= 0 {
			how = append(how, w)
		}
	}
	st.How = strings.Join(how, ", ")
	t.storage = append(t.storage, st)
	what := place
	if keeps != nil {
		what += " " + keeps.String()
	}
	t.because("storage: "+what, s.First, s.Last, "storing sentence, place, time")
}

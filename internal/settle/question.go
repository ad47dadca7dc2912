// Package settle puts a person's answers into a recipe document: an amount
// for an ingredient, the yield, an oven's heat, or which of two things said
// holds. It checks what was typed and says why it can't be taken; it never
// guesses an answer. What follows from the document (macros, allergens, the
// flags that go away) is worked out afterwards by package derive.
package settle

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
	"time"

	"quern/internal/merge"
	"quern/schema"
)

// AsSaid is the answer that leaves a thing the way it was said: the flag is
// settled and nothing in the recipe changes.
const AsSaid = "as said"

// ToTaste is the answer for an ingredient that has no amount to weigh.
const ToTaste = "to taste"

// Mine and TheRecording are the answers to a flag that merging raised: keep
// what the document has, or take what the recording gives now.
const (
	Mine         = "mine"
	TheRecording = "the recording"
)

// Question is one open flag, ready to be put to a person.
type Question struct {
	Doc, Flag int    // index of the document, and of the flag in it
	Key       string // names the flag across readings of the document
	Title     string // of the recipe
	Kind      string
	Subject   string
	Ask       string
	Evidence  []string
	Said      []schema.Said
	Takes     string // what an answer may look like, in words
}

// Open lists the open flags of some recipes in order of the recording; flags
// without a moment come last. Recipes keep their order.
func Open(docs []*schema.Document) []Question {
	var all []Question
	for d, doc := range docs {
		var own []Question
		for i, key := range keys(doc) {
			f := doc.Flags[i]
			if f.Settled != "" {
				continue
			}
			own = append(own, Question{Doc: d, Flag: i, Key: key, Title: doc.Title, Kind: f.Kind, Subject: f.Subject,
				Ask: f.Ask, Evidence: f.Evidence, Said: f.Said, Takes: takes(f)})
		}
		sort.SliceStable(own, func(i, j int) bool { return begins(own[i].Said) < begins(own[j].Said) })
		all = append(all, own...)
	}
	return all
}

// keys names each flag of a document by what it is about.
func keys(doc *schema.Document) []string {
	out := make([]string, len(doc.Flags))
	seen := map[string]int{}
	for i, f := range doc.Flags {
		key := f.Kind + ":" + f.Subject
		if len(f.Said) > 0 {
			key += ":" + f.Said[0].At
		}
		// Plain characters only: the key travels through forms and terminals.
		key = strings.Trim(strconv.QuoteToASCII(key), `"`)
		seen[key]++
		if n := seen[key]; n > 1 {
			key += "/" + strconv.Itoa(n)
		}
		out[i] = key
	}
	return out
}

// Find gives the index of the flag a key names, settled ones included.
func Find(doc *schema.Document, key string) (int, bool) {
	for i, k := range keys(doc) {
		if k == key {
			return i, true
		}
	}
	return 0, false
}

// never is later than any recording.
const never = time.Duration(1<<63 - 1)

// begins is the first moment of some quotes.
func begins(said []schema.Said) time.Duration {
	first := never
	for _, s := range said {
		if at, ok := Moment(s.At); ok && at < first {
			first = at
		}
	}
	return first
}

// Moment reads a WebVTT timestamp, hh:mm:ss.mmm or mm:ss.mmm.
func Moment(at string) (time.Duration, bool) {
	parts := strings.Split(at, ":")
	if len(parts) < 2 || len(parts) > 3 {
		return 0, false
	}
	sec, err := strconv.ParseFloat(parts[len(parts)-1], 64)
	if err != nil || !(sec >= 0 && sec < 60) {
		return 0, false
	}
	d := time.Duration(sec*1000+0.5) * time.Millisecond
	unit := time.Minute
	for i := len(parts) - 2; i >= 0; i-- {
		n, err := strconv.ParseUint(parts[i], 10, 16)
		if err != nil {
			return 0, false
		}
		d += time.Duration(n) * unit
		unit = time.Hour
	}
	return d, true
}

// Clock writes a moment as a person reads it off a player: 3:07, 1:02:40.
func Clock(d time.Duration) string {
	s := int64(d / time.Second)
	if s >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// wants is the sort of answer a flag kind takes.
type wants int

const (
	words wants = iota
	amount
	yield
	temperature
	duration
	food
	heard
)

func wantsOf(kind string) wants {
	switch kind {
	case schema.AmountUnstated, schema.AmountVague, schema.ConflictAmount:
		return amount
	case schema.YieldUnstated, schema.ConflictYield:
		return yield
	case schema.TemperatureUnstated, schema.ConflictTemperature:
		return temperature
	case schema.TimeUnstated, schema.ConflictTime:
		return duration
	case schema.FoodUnknown:
		return food
	case schema.HeardUnsure:
		return heard
	}
	return words
}

func takes(f schema.Flag) string {
	text := ""
	switch wantsOf(f.Kind) {
	case amount:
		text = "an amount, such as 225 g or 1 1/2 cups; or: to taste"
	case yield:
		text = "what it makes, such as 24 cookies or 4 servings"
	case temperature:
		text = "a temperature, such as 180 C or 350 F"
	case duration:
		text = "a time, such as 25 minutes"
	case food:
		text = "the food it is, in words the food table knows"
	case heard:
		text = "yes, or the word it should be"
	default:
		text = "what holds, in your words"
	}
	if _, theirs, ok := merge.Readings(f); ok {
		if theirs == "" {
			return "yes to keep it, no to take it out"
		}
		if wantsOf(f.Kind) == heard {
			text = "the words it should be"
		}
		return text + "; or: " + Mine + "; or: " + TheRecording
	}
	return text + "; or: " + AsSaid
}

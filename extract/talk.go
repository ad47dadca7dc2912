// Package extract reads a narration and gives the recipes that were told in
// it: only what was said, each fact with its moment and words.
//
// The talk is cut into tokens once. Then a list of passes runs over it; each
// pass reads the marks of the passes before it and adds marks of its own, and
// none changes a word. The last passes turn marks into documents.
package extract

import (
	"maps"
	"slices"
	"strings"
	"time"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/internal/marking"
	"quern/internal/transcript"
	"quern/schema"
)

// Reason tells why a fact stands in a document: the words it was read from
// and the pass that made it.
type Reason struct {
	Document int    // index among the documents
	Fact     string // "amount of bread flour: 3 1/2 cups"
	At       string // WebVTT timestamp, "" without times
	Words    string // as spoken
	Marks    string // what the passes before had marked in these words
	Pass     string
}

// Extract gives one document for each recipe told in the narration, at least
// one. It never fails: a talk without a recipe gives a document without
// ingredients and steps.
func Extract(n *transcript.Narration, opts ...Option) []*schema.Document {
	return run(n, opts).docs
}

// Option changes how a narration is read.
type Option func(t *talk)

// WithoutTagger reads without the part-of-speech tagger, which is otherwise
// asked about the few words that a measure precedes and the lexicon lacks.
func WithoutTagger() Option { return func(t *talk) { t.tagger = false } }

// Explain does what Extract does and gives the reason for every fact.
func Explain(n *transcript.Narration, opts ...Option) ([]*schema.Document, []Reason) {
	t := run(n, append(slices.Clone(opts), func(t *talk) { t.explain = true }))
	return t.docs, t.reasons
}

// A pass adds marks to the talk.
type pass struct {
	name string
	run  func(t *talk)
}

// passes is the whole grammar, in order.
var passes = []pass{
	{"sentences", (*talk).markSentences},
	{"quantities", (*talk).markQuantities},
	{"marks", (*talk).guessMarks},
	{"foods", (*talk).markFoods},
	{"unknown", (*talk).markUnknown},
	{"actions", (*talk).markActions},
	{"fragments", (*talk).markFragments},
	{"kinds", (*talk).markKinds},
	{"corrections", (*talk).markCorrections},
	{"parts", (*talk).markParts},
	{"components", (*talk).markComponents},
	{"makings", (*talk).markMakings},
	{"headings", (*talk).markHeadings},
	{"heads", (*talk).markParagraphHeads},
	{"ways", (*talk).markWays},
	{"amounts", (*talk).joinAmounts},
	{"ingredients", (*talk).gatherIngredients},
	{"steps", (*talk).writeSteps},
	{"order", (*talk).mendOrder},
	{"storage", (*talk).findStorage},
	{"yield", (*talk).findYield},
	{"macros", (*talk).findMacros},
	{"claims", (*talk).findClaims},
	{"document", (*talk).writeDocuments},
	{"conflicts", (*talk).findConflicts},
	{"chapters", (*talk).findChapters},
}

func run(n *transcript.Narration, opts []Option) *talk {
	t := &talk{n: n, lex: lexicon.Load(), tagger: true}
	for _, o := range opts {
		o(t)
	}
	t.readWords()
	for _, p := range passes {
		t.pass = p.name
		p.run(t)
	}
	return t
}

// talk is the annotated narration.
type talk struct {
	n    *transcript.Narration
	lex  *lexicon.Lexicon
	toks []language.Token
	ids  []int32
	pass string

	index                *phraseIndex           // of the words said, for has
	groupMarks, cueMarks []marks                // by the number of a group or a list of cues, see in and cueAt
	placesOf             []*[]place             // by the number of a list of phrases, see places
	lastKinds            map[string]int         // see lastOfKinds
	partReach            []int                  // see partOf
	again                []bool                 // see overAgain
	kept                 []bool                 // see keptBefore
	mends                []bool                 // see takesBack
	afterMeasured        map[*lexicon.Food]bool // see namedAfterFood
	answerAt             []int32                // see answerFrom, 0 not looked up
	retelling            []again                // see retold, nil where no run-through closes the talk
	onesSaid             map[string]int         // see announcedOne
	theCalled            []uint8                // by the number of a word, one more than how often it is a thing, see calledThe

	punctuated bool
	loose      bool // its marks are a recogniser's: sentences begin in lower case
	lineByLine bool // every sentence stands in a cue of its own
	pastTold   bool // the cook tells what was done as the recipe
	sents      []sentence
	sentOf     []int32        // sentence of each token
	guesses    []marking.Mark // of talk without marks, till they are set
	guessed    marks          // tokens behind which a comma was guessed, nil where none were

	quantities []quantity
	quantityAt []int32 // index in quantities covering the token, -1 for none
	mentions   []mention
	mentionAt  []int32
	unknown    []lexicon.Food // foods named with a measure that the lexicon lacks
	tagger     bool
	tagged     map[string][]string // what the tagger said of words in a row
	tools      []tool
	toolAt     []int32
	thingWord  marks   // a verb's form that is also the name of a food or a tool
	madeAt     []uint8 // length of a made-word beginning here, 0 for none
	actions    []action
	actionAt   []int32

	parts       []partMark
	heads       []partMark // the parts as words announce them
	partNames   []string
	bareNames   bool             // a thing laid on the plate is named without an article too
	partHeads   *heads[partHead] // see partCalledAt
	live        []bool           // parts that foods go into, see liveHeads
	restMade    string           // the made-word it is called by, see nameMade
	restName    string           // of what no part has, see nameOfRest
	declared    [][]string       // names of parts announced in a list
	declaredEnd int
	ways        []wayMark
	wayNames    []string
	dishes      []dish
	ingredients []*ingredient
	kin         []kinSign // of each ingredient
	steps       []*step
	storage     []schema.Storage
	yield       *schema.Quantity
	yieldSaid   []schema.Said
	spoken      *schema.SpokenMacros
	claims      []schema.Claim
	flags       []schema.Flag
	docs        []*schema.Document
	explain     bool // reasons are asked for
	reasons     []Reason
	prefersC    bool
}

// kind is what a sentence is there for.
type kind uint8

const (
	plain       kind = iota
	instruction      // tells what to do
	listing          // names ingredients
	aside            // anecdote, opinion, greeting
	storing          // keeping the dish
	figures          // spoken macros
	yielding         // how much it makes
)

type sentence struct {
	language.Span
	kind      kind
	para      int  // cue or paragraph it began in
	past      bool // told in the past
	forgotten bool // a remark made late
	other     bool // about another dish or recording
	recap     bool // says it all again
	naming    bool // only names the dish
}

// at gives the WebVTT timestamp of token i, "" without times.
func (t *talk) at(i int) string {
	if i < 0 || i >= len(t.toks) {
		return ""
	}
	return stamp(t.n.Words[t.toks[i].Word].At)
}

// stamp writes a time as a WebVTT timestamp.
func stamp(d time.Duration) string { return transcript.Stamp(d) }

// quote gives the words of tokens [a, b) exactly as they stand in the
// transcript.
func (t *talk) quote(a, b int) string {
	if a < 0 {
		a = 0
	}
	if b > len(t.toks) {
		b = len(t.toks)
	}
	if a >= b {
		return ""
	}
	first, last := int(t.toks[a].Word), int(t.toks[b-1].Word)
	words := t.n.Words[first : last+1]
	if len(words) == 1 {
		return words[0].Text
	}
	size := len(words)
	for i := range words {
		size += len(words[i].Text)
	}
	if cue := t.n.CueOf(first); last < cue.Last && first-cue.First < paragraphWords {
		// the words stand in the cue's text as they are quoted
		from := first - cue.First
		for i := cue.First; i < first; i++ {
			from += len(t.n.Words[i].Text)
		}
		return cue.Text[from : from+size-1]
	}
	var sb strings.Builder
	sb.Grow(size)
	for i := range words {
		if sb.Len() > 0 {
			sb.WriteByte(' ')
		}
		sb.WriteString(words[i].Text)
	}
	return sb.String()
}

func (t *talk) said(a, b int) schema.Said {
	return schema.Said{At: t.at(a), Quote: t.quote(a, b)}
}

// norm gives the comparison form of token i, "" outside the talk.
func (t *talk) norm(i int) string {
	if i < 0 || i >= len(t.toks) {
		return ""
	}
	return t.toks[i].Norm
}

// phrase joins the comparison forms of tokens [a, b).
func (t *talk) phrase(a, b int) string {
	b = min(b, len(t.toks))
	if b == a+1 {
		return t.toks[a].Norm
	}
	size := 0
	for i := a; i < b; i++ {
		size += len(t.toks[i].Norm) + 1
	}
	var sb strings.Builder
	sb.Grow(size)
	for i := a; i < b; i++ {
		if i > a {
			sb.WriteByte(' ')
		}
		sb.WriteString(t.toks[i].Norm)
	}
	return sb.String()
}

// is reports whether the words of the phrase stand at token i.
func (t *talk) is(i int, words ...string) bool {
	if i < 0 || i+len(words) > len(t.toks) {
		return false
	}
	for k, w := range words {
		if t.toks[i+k].Norm != w {
			return false
		}
	}
	return true
}

// joined reports whether tokens i and i+1 stand in one phrase: no mark between.
func (t *talk) joined(i int) bool {
	return i >= 0 && i+1 < len(t.toks) && t.toks[i].After == 0 && t.sentOf[i] == t.sentOf[i+1]
}

func (t *talk) sentence(i int) *sentence { return &t.sents[t.sentOf[i]] }

func (t *talk) because(fact string, a, b int, marks string) {
	if !t.explain {
		return
	}
	t.reasons = append(t.reasons, Reason{Fact: fact, At: t.at(a), Words: t.quote(a, b), Marks: marks, Pass: t.pass})
}

// pastEnd is how many tokens past the last may be asked what they are: no food,
// no tool, no quantity. Rules look a few words ahead of the one they are at.
const pastEnd = 16

// none is a list of n tokens, and of pastEnd more, of which none is anything.
func none(n int) []int32 {
	s := make([]int32, n+pastEnd)
	for i := range s {
		s[i] = -1
	}
	return s
}

// room gives a list room for one more, and where it has none left for as many over
// the words to come as it holds for the first i of n.
func room[T any](list []T, i, n int) []T {
	if len(list) == cap(list) {
		return slices.Grow(list, len(list)*(n-i)/(i+1)+8)
	}
	return list
}

func words(s string) map[string]bool {
	m := make(map[string]bool)
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

// union gives the words that stand in any of the sets.
func union(sets ...map[string]bool) map[string]bool {
	m := make(map[string]bool)
	for _, s := range sets {
		maps.Copy(m, s)
	}
	return m
}

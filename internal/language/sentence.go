package language

// Span is a run of tokens, First included, Last not.
type Span struct{ First, Last int }

// Len is the number of tokens.
func (s Span) Len() int { return s.Last - s.First }

// Punctuated reports whether the talk's writer used sentence marks: at least
// one for every sixty words.
func Punctuated(toks []Token) bool {
	ends := 0
	for i := range toks {
		if toks[i].After.Ends() {
			ends++
		}
	}
	return ends*60 >= len(toks) && ends > 0
}

// Hint is what the words' meaning says of a sentence beginning at a token.
type Hint uint8

// The hints.
const (
	Unknown Hint = iota
	Begins       // a sentence begins here
	Goes         // the sentence goes on
)

// Sentences cuts the talk. Where the writer used no sentence marks, ends are
// found from pauses and from the words that open a sentence in speech; hint
// adds what the caller knows of the words' meaning, it may be nil.
func Sentences(toks []Token, hint func(i, from int) Hint) []Span {
	if len(toks) == 0 {
		return nil
	}
	var out []Span
	from := 0
	cut := func(at int) {
		if at > from {
			out = append(out, Span{from, at})
			from = at
		}
	}
	if Punctuated(toks) {
		for i := range toks {
			if toks[i].After.Ends() {
				cut(i + 1)
			}
		}
		cut(len(toks))
		return out
	}
	for i := 1; i < len(toks); i++ {
		if toks[i-1].After.Ends() || opens(toks, i, from, hint) {
			cut(i)
		}
	}
	cut(len(toks))
	return out
}

// pause is the silence after which a new sentence is taken to begin: common
// practice of recognisers' segmenters.
const pause = 700e6 // nanoseconds

// openers begin a sentence in speech wherever they stand.
var openers = set("okay", "ok", "alright", "next", "anyway", "anyhow", "meanwhile", "first", "finally", "okey", "righto", "meantime")

// leaning words need something after them: no sentence ends with one.
var leaning = set("and", "or", "but", "the", "a", "an", "to", "of", "in", "on", "at", "for", "with", "from", "by", "into", "your", "my",
	"our", "their", "his", "her", "its", "that", "what", "which", "who", "where", "how", "why", "if", "when", "till", "until", "because",
	"as", "than", "like", "so", "just", "is", "are", "was", "were", "be", "been", "not", "no", "very", "really", "too", "i", "you", "we",
	"they", "he", "she", "it", "this", "these", "those", "can", "could", "will", "would", "should", "might", "may", "must", "do", "does",
	"don't", "did", "didn't", "have", "has", "had", "i'm", "you're", "we're", "they're", "it's", "that's", "let", "let's", "gonna",
	"going", "want", "wanna", "i'll", "you'll", "we'll", "it'll", "i'd", "you'd", "i've", "you've", "we've", "while", "before", "after",
	"once", "then", "about", "know", "think", "say", "said", "says", "see", "some", "any", "every", "each", "another", "one", "please",
	"means", "mean", "hope", "guess", "told", "tell", "sure", "although", "though", "unless", "since", "whether", "cause", "'cause",
	"even", "only", "still", "also", "never", "always", "thank", "get", "got", "goes", "go", "start", "begin", "stop", "keep", "over", "under", "per",
	"everything", "all", "both", "maybe", "probably", "actually", "basically", "never", "there's", "here's", "much", "many", "same", "those")

// objects can end a sentence although they lean: "stir it", "like that".
var objects = set("it", "that", "this", "them", "you", "those", "these", "all", "in", "on", "over", "everything", "one", "both", "though", "much", "still", "too")

// subjects begin a clause of their own unless a leaning word stands before.
var subjects = set("i", "i'm", "i've", "i'll", "i'd", "you", "you'll", "you're", "you've", "you'd", "we", "we're", "we'll", "we've", "we'd",
	"it's", "it'll", "that's", "that'll", "there's", "here's", "they're", "they'll", "he's", "she's", "let's", "don't", "he", "she", "they", "what's",
	"who's", "if", "while", "because", "what", "how", "why", "where", "when", "once")

// Finites are auxiliaries and everyday verbs in the forms that make a clause one, and
// subjects contracted with them.
var Finites = set("am", "is", "are", "was", "were", "be", "been", "being", "isn't", "aren't", "wasn't", "weren't", "has", "have",
	"had", "hasn't", "haven't", "hadn't", "do", "does", "did", "don't", "doesn't", "didn't", "can", "could", "will", "would",
	"shall", "should", "may", "might", "must", "can't", "couldn't", "won't", "wouldn't", "it's", "that's", "there's", "here's", "what's",
	"who's", "he's", "she's", "i'm", "we're", "you're", "they're", "i've", "we've", "you've", "they've", "i'll", "we'll", "you'll",
	"they'll", "it'll", "i'd", "we'd", "you'd", "they'd", "let's", "gonna", "wanna", "got", "get", "gets", "goes", "go",
	"went", "makes", "make", "want", "wants", "need", "needs", "like", "likes", "love", "loves", "know", "think", "say",
	"says", "said", "mean", "means", "see", "feel", "looks", "look", "smells", "comes", "came", "took", "called")

func opens(toks []Token, i, from int, hint func(i, from int) Hint) bool {
	w, prev := toks[i].Norm, toks[i-1].Norm
	if toks[i].Silent || toks[i].Pause {
		return !leaning[prev] || objects[prev]
	}
	if i-from < 2 {
		return false
	}
	next := ""
	if i+1 < len(toks) {
		next = toks[i+1].Norm
	}
	lean := leaning[prev]
	if hint != nil {
		switch hint(i, from) {
		case Begins:
			return true
		case Goes:
			return false
		}
	}
	switch w {
	case "so":
		return (!lean || objects[prev]) && next != "that" && next != "much" && next != "many"
	case "now", "then", "but", "oh":
		return !lean || objects[prev] && w != "now" || w == "but"
	case "and":
		return (next == "then" || next == "now" || next == "so") && (!lean || objects[prev])
	case "well", "right":
		return !lean && (subjects[next] || next == "so" || next == "now" || next == "then")
	}
	if openers[w] {
		return !lean || objects[prev]
	}
	if subjects[w] {
		return !lean || objects[prev] && w != "you" && w != "when" && w != "once" && w != "if" && w != "where" && w != "how" && w != "what"
	}
	return false
}

func set(words ...string) map[string]bool {
	m := make(map[string]bool, len(words))
	for _, w := range words {
		m[w] = true
	}
	return m
}

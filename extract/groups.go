package extract

import "quern/internal/lexicon"

// The groups are sets of words that most tokens of a talk are looked up in.
var (
	aWayNoun        = groupOf(wayNoun)
	aWayCount       = groupOf(wayCounts)
	aRoad           = groupOf(roadWords)
	wayShape        = groupOf(wayShapes)
	aFinite         = groupOf(finites)
	aSubject        = groupOf(subjects)
	anOther         = groupOf(others)
	ofKin           = groupOf(kin)
	aPastVerb       = groupOf(pastVerb)
	aParticiple     = groupOf(participle)
	aTurnWord       = groupOf(turnWords)
	aPlace          = groupOf(placeWords)
	aKeepWord       = groupOf(keepWords)
	aMacro          = groupOf(macroWords)
	aCondemning     = groupOf(condemning)
	anExchange      = groupOf(exchanging)
	anOfferer       = groupOf(offerers)
	aSubstituteNoun = groupOf(substituteNouns)
	ground          = groupOf(groundInto)
	aDividing       = groupOf(dividing)
	aSoft           = groupOf(soft)
	aFirstHand      = groupOf(firstHand)
	aLeadIn         = groupOf(leadIn)
	youOrWe         = groupOf(youWe)
	anAmountHead    = groupOf(amountHeads)
)

// isDishNoun reports whether the word at token i is the noun of a dish, one or
// several.
func (t *talk) isDishNoun(i int) bool {
	if i < 0 || i >= len(t.toks) {
		return false
	}
	x := t.index
	k := x.word[i]
	if x.dish[k] == 0 {
		x.dish[k] = 1
		if w := x.texts[k]; dishNoun[w] || dishNoun[lexicon.Singular(w)] {
			x.dish[k] = 2
		}
	}
	return x.dish[k] == 2
}

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
	aPartApart      = groupOf(keys(partNeeds))
	aSoft           = groupOf(soft)
	aFirstHand      = groupOf(firstHand)
	aLeadIn         = groupOf(leadIn)
	youOrWe         = groupOf(youWe)
	anAmountHead    = groupOf(amountHeads)
	anArticle       = groupOf(articleLike)
	aDeterminer     = groupOf(determiners)
	aHeadWord       = groupOf(headWords)
	aJoining        = groupOf(joining)
	aBetween        = groupOf(between)
	aStore          = groupOf(keys(places))
	aSpot           = groupOf(keys(spots))
	aSlip           = groupOf(keys(slipsByWord))
	aYieldCue       = groupOf(keys(yieldCuesBy.by))
	aDishName       = groupOf(dishNames)
	aCookedWord     = groupOf(cookedWord)
	aMakingVerb     = groupOf(makingVerbs)
	anIntro         = groupOf(introWords)
	anAuxiliary     = groupOf(auxiliaries)
	anAnybody       = groupOf(anybodies)
	anAsking        = groupOf(union(askedHer, asks))
	anUntil         = groupOf(untils)
	aPraise         = groupOf(praise)
	aDoneWord       = groupOf(doneWords)
	aMadeBefore     = groupOf(madeBefore)
	aPlainVessel    = groupOf(plainVessel)
	anEmptied       = groupOf(emptied)
	aBeside         = groupOf(besides)
	aDipperSize     = groupOf(dipperSizes)
	aBareVague      = groupOf(bareVagues)
	aWayState       = groupOf(wayStates)
	aWayLead        = groupOf(wayLeads)
	aWayEnd         = groupOf(wayEnds)
	aCut            = groupOf(animalCuts)
)

// keys gives the words by which a table finds something.
func keys[V any](table map[string]V) map[string]bool {
	m := make(map[string]bool, len(table))
	for w := range table {
		m[w] = true
	}
	return m
}

// The lists are phrases that most sentences are searched for.
var (
	choiceCue       = listed(choiceCues...)
	bothWay         = listed(bothWays...)
	inBothWay       = listed(inBothWays...)
	steal           = listed(steals...)
	lick            = listed(licks...)
	relishing       = listed(relish...)
	forgottenWords  = listed(forgottenCues...)
	namingCue       = listed(namingCues...)
	keepVerb        = listed(keepVerbs...)
	asker           = listed(askers...)
	ending          = listed(ended...)
	secondCue       = listed(secondCues...)
	leavingAfter    = listed(leavesOutAfter...)
	leavingBefore   = listed(leavesOutBefore...)
	asideCue        = listed(asideCues...)
	leaveOutCue     = listed(leaveOutCues...)
	leavingFrom     = listed(leavings...)
	frozenWord      = listed(frozenWords...)
	softYolks       = listed(softYolk...)
	anotherCase     = listed(otherCase...)
	notThisOne      = listed(notThis...)
	notThisOneAfter = listed(notThisAfter...)
	dishCue         = listed(dishCues...)
	teller          = listed(tellers...)
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

// modifier gives the class of the word at token i before a food.
func (t *talk) modifier(i int) lexicon.Class {
	if i < 0 || i >= len(t.toks) {
		return lexicon.NoClass
	}
	x := t.index
	k := x.word[i]
	if x.class[k] == 0 {
		x.class[k] = 1 + t.lex.Modifiers[x.texts[k]]
	}
	return x.class[k] - 1
}

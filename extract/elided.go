package extract

// A cook who has told one time leaves the unit out of the next: "on low it's six to seven hours,
// on high three to four", "two days, three if it's thick", "plain ones dry four hours, seeded ones
// want eight". The number then stands where a time would, and takes the unit of the one before.

// elidedReach is how many words may stand between a time and the number that takes its unit.
const elidedReach = 16

// elidedTimes is the most by which two such times differ, one as many times the other.
const elidedTimes = 4

var (
	// wantsTime are verbs of what needs a time.
	wantsTime = words("want wants need needs takes gets")
	// afterElided may follow a number whose unit was left out.
	afterElided = words("or if when is for on at and though minimum maximum max tops")
	// ownTimed are settings that each have a time of their own.
	ownTimed = words("low high medium slow fast")
)

// elideUnits gives the numbers that go on with a time before them its unit.
func (t *talk) elideUnits() {
	for k := 1; k < len(t.quantities); k++ {
		q, p := &t.quantities[k], &t.quantities[k-1]
		if q.kind != count || p.kind != duration || p.overnite || q.of || q.min < 2 || q.First-p.Last > elidedReach || t.sentOf[q.First]-t.sentOf[p.First] > 1 {
			continue
		}
		if q.max > elidedTimes*p.max || elidedTimes*q.max < p.min || !t.endsElided(q.Last) || !t.besideTime(q.First, q.Last) {
			continue
		}
		q.kind, q.unit, q.ukind = duration, p.unit, p.ukind
	}
}

// endsElided reports whether the word at token i can follow a number without its unit: no noun
// that it would count.
func (t *talk) endsElided(i int) bool {
	return i >= len(t.toks) || t.toks[i-1].After != 0 || t.sentOf[i] != t.sentOf[i-1] || afterElided[t.norm(i)]
}

// besideTime reports whether the number in tokens [a, b) stands where a time would: after a
// setting, after a verb of needing, or at the head of a sentence with a condition behind it.
func (t *talk) besideTime(a, b int) bool {
	i := a - 1
	if w := t.norm(i); w == "it's" || w == "that's" || w == "is" || w == "about" || w == "then" {
		i--
	}
	if ownTimed[t.norm(i)] && (t.norm(i-1) == "on" || t.norm(i-1) == "at") || wantsTime[t.norm(a-1)] {
		return true
	}
	return (a == t.sentence(a).First || t.toks[a-1].After != 0) && (t.norm(b) == "if" || t.norm(b) == "when")
}

package publish

// The headings of a recipe, the same in every form.
const (
	headNeed      = "What you need"
	headTools     = "Tools to hand"
	headDo        = "What to do"
	headAhead     = "Making ahead"
	headKeep      = "Keeping"
	headNotes     = "Good to know"
	headMacros    = "Figures" // followed by "in a biscuit"
	headAllergens = "Allergens named"
	headCautions  = "Take care"
	headClaims    = "Said of this dish"
	headQuestions = "Still to settle"
)

// The sentences that explain the page, the same in every form.
const (
	saysWorked    = "Figures in [square brackets] are worked out from the amount said."
	saysTimes     = "Times add up what was said; work nobody timed isn't in them."
	saysWays      = "There is more than one way to make this. Steps under a way's name are only for that way."
	saysClaims    = "This is what was said. A recipe can't show that it is so: read every label."
	saysAllergens = "Only what the named ingredients are known to bring. An ingredient's label may tell of more."
	saysNone      = "No ingredient named here is known to bring one of the allergens looked for. That is not a finding that there are none: read every label."
)

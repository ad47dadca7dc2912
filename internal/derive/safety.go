package derive

import "quern/internal/safety"

// safe sets the document's allergens and cautions.
func (r *reading) safe() {
	r.doc.Allergens = safety.Allergens(r.doc)
	r.doc.Cautions = r.dish.Merge()
}

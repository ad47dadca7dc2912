package derive

import (
	"quern/internal/safety"
	"quern/schema"
)

// safe sets the document's allergens and cautions.
func safe(doc *schema.Document) {
	doc.Allergens = safety.Allergens(doc)
	doc.Cautions = safety.Merge(doc)
}

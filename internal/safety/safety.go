// Package safety tells what the named ingredients, steps and keeping times of a
// recipe document show about allergens, diet claims and dangers in the kitchen.
//
// Everything it says comes from embedded tables, one row a food, a claim or a
// caution, each with a reason and a source. It works on what the document names
// and judges nothing else: a recipe can show that an ingredient brings an
// allergen or breaks a claim, never that a dish is without one. What depends on
// the maker of a product is kept apart and said to depend on the label.
package safety

// Notice is printed once with every output that carries allergens, claims,
// cautions or figures.
const Notice = "General information, worked out from the ingredients and steps named here. " +
	"Read every label and follow your local food-safety rules. " +
	"Ask a dietitian or doctor about allergy, diabetes, pregnancy and feeding infants."

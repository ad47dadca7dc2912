package schema

// Quantity is one value with two spellings: text in YAML ("1 1/2 cups"), an
// object in JSON. Either is read in either format.
type Quantity struct {
	Min       float64   // smallest value, in Unit; equal to Max for a single value
	Max       float64   // largest value, in Unit
	By        []float64 // further sides of a size: 9 x 13 inch has Min = Max = 9 and By = [13]
	Unit      string    // canonical singular unit; "" for a plain count; for a yield the thing made ("cookies")
	About     bool      // "about 2 cups"
	Overnight bool      // 8-12 hours, said as "overnight" (common practice)
	Vague     string    // words where no number was said ("several days"); Min and Max are then 0
	Size      *Quantity // of each container: 2 cans (14 oz)
	Text      string    // the written form; empty means: write it from the other fields
}

// Package schema holds the recipe document: its Go types, the two spellings of
// a quantity, its JSON Schema, and reading, writing and validating it as YAML
// or JSON. It knows nothing of cooking and imports nothing of the project.
//
// One Document is one recipe. Every fact carries Said: the moments and the
// words of the recording it came from.
package schema

// Version is the version of the form this package writes.
const Version = 1

// Document is one recipe: what the cook said, in the order and form of a
// written recipe. Field order here is the order of keys in YAML.
type Document struct {
	Recipe      int          `yaml:"recipe" json:"recipe"`
	Title       string       `yaml:"title" json:"title"`
	Source      *Source      `yaml:"source,omitempty" json:"source,omitempty"`
	Measures    string       `yaml:"measures,omitempty" json:"measures,omitempty"` // "", "us", "metric" or "imperial"
	Yield       *Quantity    `yaml:"yield" json:"yield"`
	YieldSaid   []Said       `yaml:"yield_said,omitempty" json:"yield_said,omitempty"`
	Claims      []Claim      `yaml:"claims,omitempty" json:"claims"`
	Parts       []Part       `yaml:"parts,omitempty" json:"parts"`
	Ways        []Way        `yaml:"ways,omitempty" json:"ways"`
	Ingredients []Ingredient `yaml:"ingredients" json:"ingredients"`
	Equipment   []Equipment  `yaml:"equipment,omitempty" json:"equipment"`
	Steps       []Step       `yaml:"steps" json:"steps"`
	Storage     []Storage    `yaml:"storage,omitempty" json:"storage"`
	Macros      *Macros      `yaml:"macros,omitempty" json:"macros,omitempty"`
	Allergens   []Allergen   `yaml:"allergens,omitempty" json:"allergens"`
	Cautions    []Caution    `yaml:"cautions,omitempty" json:"cautions"`
	Flags       []Flag       `yaml:"flags,omitempty" json:"flags"`
	Chapters    []Chapter    `yaml:"chapters,omitempty" json:"chapters"`
}

// Source names the recording a document was read from.
type Source struct {
	File   string `yaml:"file" json:"file"`
	Format string `yaml:"format" json:"format"`                     // as transcript.Narration.Format
	Length string `yaml:"length,omitempty" json:"length,omitempty"` // ISO 8601 duration, "" where the transcript has no times
	SHA256 string `yaml:"sha256" json:"sha256"`                     // of the file's bytes, hexadecimal
}

// Said is one moment of the recording.
type Said struct {
	At    string `yaml:"at" json:"at"`       // WebVTT timestamp hh:mm:ss.mmm; "" (null when written) where the transcript has no times
	Quote string `yaml:"quote" json:"quote"` // the words as spoken: a run of the transcript's words
}

// Claim is a diet statement the cook made about the dish ("gluten-free").
type Claim struct {
	Claim string `yaml:"claim" json:"claim"`
	Said  []Said `yaml:"said,omitempty" json:"said"`
}

// Part is a component made separately ("dough", "glaze").
type Part struct {
	Name string `yaml:"name" json:"name"`
	Said []Said `yaml:"said,omitempty" json:"said,omitempty"`
}

// Way is one of several methods for the same dish ("oven", "skillet").
type Way struct {
	Name string `yaml:"name" json:"name"`
	Said []Said `yaml:"said,omitempty" json:"said,omitempty"`
}

// Ingredient is one thing to buy or have, in order of first use. Its amount is
// what was said, or what a person filled in; never what custom would suggest.
type Ingredient struct {
	ID           string       `yaml:"id" json:"id"` // unique in the document, from the name
	Name         string       `yaml:"name" json:"name"`
	Amount       *Quantity    `yaml:"amount" json:"amount"`
	SecondAmount *Quantity    `yaml:"second_amount,omitempty" json:"second_amount,omitempty"`
	Size         *Quantity    `yaml:"size,omitempty" json:"size,omitempty"` // of the can, packet or piece
	Vague        string       `yaml:"vague,omitempty" json:"vague,omitempty"`
	ToTaste      bool         `yaml:"to_taste,omitempty" json:"to_taste,omitempty"`
	Preparation  string       `yaml:"preparation,omitempty" json:"preparation,omitempty"`
	Part         string       `yaml:"part,omitempty" json:"part,omitempty"` // a name in Parts
	Ways         []string     `yaml:"ways,omitempty" json:"ways,omitempty"` // names in Ways; empty means all
	Optional     bool         `yaml:"optional,omitempty" json:"optional,omitempty"`
	Substitutes  []Substitute `yaml:"substitutes,omitempty" json:"substitutes,omitempty"`
	AlsoCalled   []string     `yaml:"also_called,omitempty" json:"also_called,omitempty"`
	Food         string       `yaml:"food,omitempty" json:"food,omitempty"` // key of the nutrient table
	Grams        *Grams       `yaml:"grams,omitempty" json:"grams,omitempty"`
	Said         []Said       `yaml:"said,omitempty" json:"said"`
}

// Substitute is what the cook said can stand in for an ingredient.
type Substitute struct {
	Name   string    `yaml:"name" json:"name"`
	Amount *Quantity `yaml:"amount,omitempty" json:"amount,omitempty"`
	Said   []Said    `yaml:"said,omitempty" json:"said,omitempty"`
}

// Grams is the weight worked out from an amount, and the rule that gave it.
type Grams struct {
	Min  float64 `yaml:"min" json:"min"` // grams
	Max  float64 `yaml:"max" json:"max"` // grams; equal to Min for a single amount
	Rule string  `yaml:"rule" json:"rule"`
}

// Equipment is one thing used that isn't eaten.
type Equipment struct {
	Name string `yaml:"name" json:"name"`
	Said []Said `yaml:"said,omitempty" json:"said,omitempty"`
}

// Step is one written instruction.
type Step struct {
	Text        string     `yaml:"text" json:"text"`
	Actions     []string   `yaml:"actions,omitempty" json:"actions"` // base verbs as spoken
	Uses        []string   `yaml:"uses,omitempty" json:"uses,omitempty"`
	Equipment   []string   `yaml:"equipment,omitempty" json:"equipment,omitempty"`
	Temperature []Quantity `yaml:"temperature,omitempty" json:"temperature,omitempty"`
	Heat        []string   `yaml:"heat,omitempty" json:"heat,omitempty"` // low, medium-low, medium, medium-high, high
	Time        []Quantity `yaml:"time,omitempty" json:"time,omitempty"`
	Sizes       []Quantity `yaml:"sizes,omitempty" json:"sizes,omitempty"`
	Until       string     `yaml:"until,omitempty" json:"until,omitempty"` // sign of doneness
	Part        string     `yaml:"part,omitempty" json:"part,omitempty"`
	Ways        []string   `yaml:"ways,omitempty" json:"ways,omitempty"`
	Optional    bool       `yaml:"optional,omitempty" json:"optional,omitempty"`
	Said        []Said     `yaml:"said,omitempty" json:"said"`
}

// Places a dish can be kept in.
const (
	Refrigerator    = "refrigerator"
	Freezer         = "freezer"
	RoomTemperature = "room temperature"
)

// Storage is one way of keeping what was made.
type Storage struct {
	Place string    `yaml:"place" json:"place"`
	Keeps *Quantity `yaml:"keeps" json:"keeps"`
	What  string    `yaml:"what,omitempty" json:"what,omitempty"`
	How   string    `yaml:"how,omitempty" json:"how,omitempty"`
	Said  []Said    `yaml:"said,omitempty" json:"said"`
}

// Macros holds the figures as spoken and as worked out, side by side.
type Macros struct {
	Spoken   *SpokenMacros   `yaml:"spoken,omitempty" json:"spoken"`
	Computed *ComputedMacros `yaml:"computed,omitempty" json:"computed"`
}

// Figures are macros per serving: kcal, grams, milligrams; nil means unknown.
type Figures struct {
	Kcal       *float64 `yaml:"kcal,omitempty" json:"kcal"`
	FatG       *float64 `yaml:"fat_g,omitempty" json:"fat_g"`
	SaturatedG *float64 `yaml:"saturated_fat_g,omitempty" json:"saturated_fat_g"`
	ProteinG   *float64 `yaml:"protein_g,omitempty" json:"protein_g"`
	CarbsG     *float64 `yaml:"carbs_g,omitempty" json:"carbs_g"`
	FibreG     *float64 `yaml:"fibre_g,omitempty" json:"fibre_g"`
	NetCarbsG  *float64 `yaml:"net_carbs_g,omitempty" json:"net_carbs_g"`
	SugarG     *float64 `yaml:"sugar_g,omitempty" json:"sugar_g"`
	SodiumMg   *float64 `yaml:"sodium_mg,omitempty" json:"sodium_mg"`
	Ratio      *float64 `yaml:"ratio,omitempty" json:"ratio"` // fat : (protein + net carbohydrate), by weight
}

// SpokenMacros are the figures the cook gave; only what was said.
type SpokenMacros struct {
	Per       string `yaml:"per,omitempty" json:"per"`
	Figures   `yaml:",inline"`
	LeavesOut []string `yaml:"leaves_out,omitempty" json:"leaves_out"`
	Said      []Said   `yaml:"said,omitempty" json:"said"`
}

// ComputedMacros are the figures per serving that the amounts give. Where
// Complete is false they are lower bounds.
type ComputedMacros struct {
	Per        string  `yaml:"per,omitempty" json:"per,omitempty"`
	Servings   float64 `yaml:"servings,omitempty" json:"servings"` // 0 where the yield is unknown: the figures are then for the whole recipe
	Figures    `yaml:",inline"`
	AlcoholG   *float64 `yaml:"alcohol_g,omitempty" json:"alcohol_g,omitempty"`
	Kcal4497   *float64 `yaml:"kcal_by_factors,omitempty" json:"kcal_by_factors,omitempty"`
	Complete   bool     `yaml:"complete" json:"complete"`
	Missing    []string `yaml:"missing,omitempty" json:"missing"`
	LeavesOut  []string `yaml:"leaves_out,omitempty" json:"leaves_out"`
	Statements []string `yaml:"notes,omitempty" json:"notes,omitempty"`
}

// Allergen is one named allergen and the ingredients that bring it.
type Allergen struct {
	Name string   `yaml:"name" json:"name"`
	From []string `yaml:"from" json:"from"` // ingredient names
}

// Caution is the usual warning where a cook or an eater could be hurt.
type Caution struct {
	Kind   string `yaml:"kind" json:"kind"`
	Text   string `yaml:"text" json:"text"`
	Source string `yaml:"source" json:"source"`
	Said   []Said `yaml:"said,omitempty" json:"said"`
}

// Flag is one thing a person has to settle.
type Flag struct {
	Kind     string   `yaml:"kind" json:"kind"`
	Subject  string   `yaml:"subject" json:"subject"`
	Ask      string   `yaml:"ask" json:"ask"`
	Evidence []string `yaml:"evidence,omitempty" json:"evidence,omitempty"` // figures that help to answer; never an answer
	Said     []Said   `yaml:"said,omitempty" json:"said"`
	Settled  string   `yaml:"settled,omitempty" json:"settled,omitempty"`
}

// Flag kinds.
const (
	AmountUnstated      = "amount-unstated"
	AmountVague         = "amount-vague"
	YieldUnstated       = "yield-unstated"
	TemperatureUnstated = "temperature-unstated"
	TimeUnstated        = "time-unstated"
	ConflictAmount      = "conflict-amount"
	ConflictTemperature = "conflict-temperature"
	ConflictTime        = "conflict-time"
	ConflictConversion  = "conflict-conversion"
	ConflictMacros      = "conflict-macros"
	ConflictClaim       = "conflict-claim"
	ConflictYield       = "conflict-yield"
	ConflictWay         = "conflict-way"
	HeardUnsure         = "heard-unsure"
	FoodUnknown         = "food-unknown"
	MacrosDiffer        = "macros-differ" // the amounts don't give the figures that were said
)

// Chapter is one turn of the talk.
type Chapter struct {
	At    string `yaml:"at" json:"at"` // WebVTT timestamp
	Title string `yaml:"title" json:"title"`
}

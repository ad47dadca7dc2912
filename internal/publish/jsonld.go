package publish

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"sort"
	"strings"

	"quern/schema"
)

// JSONLD writes a recipe as structured data in the vocabulary of schema.org
// (https://schema.org/Recipe), one JSON object. A fact the document lacks is
// absent: there is no author, picture or date, no time nobody said, no figure
// that is only a lower bound or that a question is open about, and a diet only
// where it was claimed and no named ingredient speaks against it. Of a time
// with two ends the longer is given.
func JSONLD(w io.Writer, doc *schema.Document, opt Options) error {
	doc, factor, err := opt.check(doc)
	if err != nil {
		return err
	}
	data := structured(doc, draw(doc, opt, rich, factor), opt)
	var b bytes.Buffer
	enc := json.NewEncoder(&b) // escapes <, > and &, so that it may stand in a page
	enc.SetIndent("", "  ")
	if err := enc.Encode(data); err != nil {
		return fmt.Errorf("write structured data of %q: %w", doc.Title, err)
	}
	_, err = w.Write(b.Bytes())
	return err
}

// The types below are the part of the vocabulary that is used. Field order is
// the order of the output.
type ldRecipe struct {
	Context      string       `json:"@context"`
	Type         string       `json:"@type"`
	Name         string       `json:"name"`
	Yield        string       `json:"recipeYield,omitempty"`
	PrepTime     string       `json:"prepTime,omitempty"`
	CookTime     string       `json:"cookTime,omitempty"`
	TotalTime    string       `json:"totalTime,omitempty"`
	Diets        []string     `json:"suitableForDiet,omitempty"`
	Ingredients  []string     `json:"recipeIngredient,omitempty"`
	Supply       []ldSupply   `json:"supply,omitempty"`
	Tools        []ldTool     `json:"tool,omitempty"`
	Instructions []any        `json:"recipeInstructions,omitempty"`
	Nutrition    *ldNutrition `json:"nutrition,omitempty"`
	Video        *ldVideo     `json:"video,omitempty"`
}

type ldSupply struct {
	Type     string `json:"@type"`
	Name     string `json:"name"`
	Required string `json:"requiredQuantity,omitempty"`
}

type ldTool struct {
	Type string `json:"@type"`
	Name string `json:"name"`
}

type ldSection struct {
	Type  string   `json:"@type"`
	Name  string   `json:"name"`
	Steps []ldStep `json:"itemListElement"`
}

type ldStep struct {
	Type     string `json:"@type"`
	Position int    `json:"position"`
	Text     string `json:"text"`
	Video    *ldRef `json:"video,omitempty"`
}

type ldRef struct {
	ID string `json:"@id"`
}

type ldNutrition struct {
	Type         string `json:"@type"`
	Serving      string `json:"servingSize,omitempty"`
	Calories     string `json:"calories,omitempty"`
	Fat          string `json:"fatContent,omitempty"`
	Saturated    string `json:"saturatedFatContent,omitempty"`
	Carbohydrate string `json:"carbohydrateContent,omitempty"`
	Sugar        string `json:"sugarContent,omitempty"`
	Fibre        string `json:"fiberContent,omitempty"`
	Protein      string `json:"proteinContent,omitempty"`
	Sodium       string `json:"sodiumContent,omitempty"`
}

type ldVideo struct {
	Type     string   `json:"@type"`
	Name     string   `json:"name"`
	Content  string   `json:"contentUrl,omitempty"`
	Duration string   `json:"duration,omitempty"`
	Clips    []ldClip `json:"hasPart,omitempty"`
}

type ldClip struct {
	Type  string   `json:"@type"`
	ID    string   `json:"@id"`
	Name  string   `json:"name"`
	Start float64  `json:"startOffset"`
	End   *float64 `json:"endOffset,omitempty"`
	URL   string   `json:"url,omitempty"`
}

// structured gives a recipe's data from its document and the sheet drawn of it.
func structured(doc *schema.Document, s *sheet, opt Options) *ldRecipe {
	r := &ldRecipe{Context: "https://schema.org", Type: "Recipe", Name: s.Title}
	if s.Way != "" {
		r.Name += " (" + s.Way + ")"
	}
	if s.YieldMark == nil {
		r.Yield = strings.TrimPrefix(strings.TrimPrefix(s.Yield, "Makes "), "Serves ")
		if strings.HasPrefix(s.Yield, "Serves ") {
			r.Yield += " servings"
		}
	}
	if list := timings(doc, opt.Way); len(list) == 1 { // a time for each way has no place in the vocabulary
		t := list[0]
		if t.HandsOn.known() {
			r.PrepTime = t.HandsOn.iso()
		}
		if t.Cooking.known() {
			r.CookTime = t.Cooking.iso()
		}
		if t.HandsOn.known() && t.Cooking.known() {
			r.TotalTime = t.All.iso()
		}
	}
	r.Diets = diets(s.Claims)
	for _, g := range s.Groups {
		for _, l := range g.Lines {
			r.Ingredients = append(r.Ingredients, strings.TrimSpace(l.Amount+" "+l.Name+l.After))
			r.Supply = append(r.Supply, ldSupply{Type: "HowToSupply", Name: l.Name, Required: l.Amount})
		}
	}
	for _, e := range s.Equipment {
		r.Tools = append(r.Tools, ldTool{Type: "HowToTool", Name: e})
	}
	clips := clipsOf(doc, s, opt)
	for _, sec := range s.Sections {
		var steps []ldStep
		for i, st := range sec.Steps {
			step := ldStep{Type: "HowToStep", Position: i + 1, Text: st.Text}
			if _, ok := clips[st.ID]; ok {
				step.Video = &ldRef{"#clip-" + st.ID}
			}
			steps = append(steps, step)
		}
		if sec.Title == "" {
			for _, st := range steps {
				r.Instructions = append(r.Instructions, st)
			}
			continue
		}
		r.Instructions = append(r.Instructions, ldSection{Type: "HowToSection", Name: sec.Title, Steps: steps})
	}
	r.Nutrition = nutritionOf(doc, s)
	r.Video = videoOf(doc, s, opt, clips)
	return r
}

// diets are the claims the vocabulary has a name for, where nothing named
// speaks against them. Halal and kosher can't be seen from a list of
// ingredients, and a diet for an illness is a doctor's to name: neither is
// written.
func diets(claims []claimLine) []string {
	names := map[string]string{
		"gluten-free": "GlutenFreeDiet", "gluten free": "GlutenFreeDiet", "vegan": "VeganDiet", "vegetarian": "VegetarianDiet",
		"low-fat": "LowFatDiet", "low fat": "LowFatDiet", "low-salt": "LowSaltDiet", "low salt": "LowSaltDiet",
		"low-calorie": "LowCalorieDiet", "low calorie": "LowCalorieDiet", "low-lactose": "LowLactoseDiet", "low lactose": "LowLactoseDiet",
	}
	var out []string
	for _, c := range claims {
		name := names[strings.ToLower(c.Claim)]
		if name == "" || len(c.Breaks) > 0 || len(c.Marks) > 0 {
			continue
		}
		if name = "https://schema.org/" + name; len(out) == 0 || out[len(out)-1] != name {
			out = append(out, name)
		}
	}
	return out
}

// clipsOf gives the moment of each step, by the step's id: from where it was
// said until the next moment of the document.
func clipsOf(doc *schema.Document, s *sheet, opt Options) map[string]ldClip {
	all := moments(doc)
	length := 0.0
	if doc.Source != nil {
		length, _ = isoSeconds(doc.Source.Length)
	}
	out := map[string]ldClip{}
	for _, sec := range s.Sections {
		for _, st := range sec.Steps {
			if len(st.Moments) == 0 || !st.Moments[0].known {
				continue
			}
			m := st.Moments[0]
			c := ldClip{Type: "Clip", ID: "#clip-" + st.ID, Name: short(st.Text, 80), Start: math.Round(m.Seconds*1000) / 1000, URL: m.Link}
			if n := sort.SearchFloat64s(all, m.Seconds+0.001); n < len(all) {
				end := math.Round(all[n]*1000) / 1000
				c.End = &end
			} else if length > m.Seconds {
				c.End = &length
			}
			out[st.ID] = c
		}
	}
	return out
}

// short cuts a text at a word, to at most n characters.
func short(s string, n int) string {
	runes := []rune(s)
	if len(runes) <= n {
		return s
	}
	cut := string(runes[:n-1])
	if i := strings.LastIndex(cut, " "); i > n/2 {
		cut = cut[:i]
	}
	return strings.TrimRight(cut, " ,;.") + "…"
}

func videoOf(doc *schema.Document, s *sheet, opt Options, clips map[string]ldClip) *ldVideo {
	if opt.Recording == "" && len(clips) == 0 {
		return nil
	}
	v := &ldVideo{Type: "VideoObject", Name: s.Title}
	if opt.Recording != "" {
		base, _, _ := strings.Cut(opt.Recording, "#")
		v.Content = strings.ReplaceAll(base, "{t}", "0")
	}
	if doc.Source != nil {
		v.Duration = clean(doc.Source.Length)
	}
	for _, sec := range s.Sections {
		for _, st := range sec.Steps {
			if c, ok := clips[st.ID]; ok {
				v.Clips = append(v.Clips, c)
			}
		}
	}
	return v
}

// nutritionOf gives the figures said of a serving, or else the ones worked out
// where they are complete and the recipe has one way.
func nutritionOf(doc *schema.Document, s *sheet) *ldNutrition {
	if doc.Macros == nil || s.Macros == nil || len(s.Macros.Marks) > 0 {
		return nil
	}
	var f schema.Figures
	n := &ldNutrition{Type: "NutritionInformation"}
	round := func(v float64, _ string) string { return decimal(v) }
	switch m := doc.Macros; {
	case m.Spoken != nil && m.Spoken.Figures != (schema.Figures{}):
		f, n.Serving = m.Spoken.Figures, strings.TrimPrefix(perWords(m.Spoken.Per), "in ")
	case m.Computed != nil && m.Computed.Complete && m.Computed.Servings > 0 && len(doc.Ways) < 2:
		f, n.Serving = m.Computed.Figures, strings.TrimPrefix(perWords(m.Computed.Per), "in ")
		round = func(v float64, unit string) string { return label(v, unit, false) }
	default:
		return nil
	}
	some := false
	set := func(v *float64, unit string) string {
		if v == nil {
			return ""
		}
		some = true
		return round(*v, unit) + " " + unit
	}
	n.Calories, n.Fat, n.Saturated = set(f.Kcal, "kcal"), set(f.FatG, "g"), set(f.SaturatedG, "g")
	n.Carbohydrate, n.Sugar, n.Fibre = set(f.CarbsG, "g"), set(f.SugarG, "g"), set(f.FibreG, "g")
	n.Protein, n.Sodium = set(f.ProteinG, "g"), set(f.SodiumMg, "mg")
	if !some {
		return nil
	}
	return n
}

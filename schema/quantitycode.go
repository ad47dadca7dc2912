package schema

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
)

// quantityObject is the object spelling of a quantity.
type quantityObject struct {
	Min       *float64        `yaml:"min,omitempty" json:"min,omitempty"`
	Max       *float64        `yaml:"max,omitempty" json:"max,omitempty"`
	Unit      *string         `yaml:"unit,omitempty" json:"unit,omitempty"`
	About     *bool           `yaml:"about,omitempty" json:"about,omitempty"`
	Text      string          `yaml:"text,omitempty" json:"text,omitempty"`
	By        []float64       `yaml:"by,omitempty,flow" json:"by,omitempty"`
	Overnight bool            `yaml:"overnight,omitempty" json:"overnight,omitempty"`
	Vague     string          `yaml:"vague,omitempty" json:"vague,omitempty"`
	Size      *quantityObject `yaml:"size,omitempty" json:"size,omitempty"`
}

// object gives the object spelling of a quantity that passed its check.
func (q Quantity) object() *quantityObject {
	q = q.settle()
	if q.Vague != "" {
		return &quantityObject{Vague: q.Vague}
	}
	o := &quantityObject{
		Min: &q.Min, Max: &q.Max, Unit: &q.Unit, About: &q.About, Text: q.String(), By: q.By, Overnight: q.Overnight,
	}
	if q.Size != nil {
		o.Size = q.Size.object()
	}
	return o
}

// MarshalJSON writes the object spelling: min, max, unit, about and text, and
// by, overnight and size where there are any; a vague quantity is its words
// alone. The error wraps ErrQuantity.
func (q Quantity) MarshalJSON() ([]byte, error) {
	if err := q.check(asEither); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(q.object()); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrQuantity, err)
	}
	return bytes.TrimSpace(b.Bytes()), nil
}

// UnmarshalJSON reads either spelling of an amount, time, temperature or
// length. The error wraps ErrQuantity.
func (q *Quantity) UnmarshalJSON(data []byte) error {
	node, err := jsonNode(data)
	if err != nil {
		return err
	}
	return q.UnmarshalYAML(node)
}

// MarshalYAML writes the text spelling; a vague quantity is the mapping
// {vague: …}. The error wraps ErrQuantity.
func (q Quantity) MarshalYAML() (any, error) {
	if err := q.check(asEither); err != nil {
		return nil, err
	}
	q = q.settle()
	if q.Vague != "" {
		return &Node{Kind: MappingNode, Style: FlowStyle, Content: []*Node{textNode("vague"), quotedNode(q.Vague)}}, nil
	}
	text := q.String()
	if isDigits(text) {
		return &Node{Kind: ScalarNode, Tag: "!!int", Value: text}, nil
	}
	return text, nil
}

// isDigits reports whether text is a whole number that YAML reads back digit
// for digit.
func isDigits(text string) bool {
	for _, r := range text {
		if !isDigit(r) {
			return false
		}
	}
	return text == "0" || text != "" && text[0] != '0' && len(text) < 10
}

// UnmarshalYAML reads either spelling of an amount, time, temperature or
// length. The error wraps ErrQuantity and names the line.
func (q *Quantity) UnmarshalYAML(node *Node) error {
	read, err := quantityFromNode(node, asAmount)
	if err != nil {
		return fmt.Errorf("line %d: %w", node.Line, err)
	}
	*q = read
	return nil
}

// quantityFromNode reads either spelling; as a yield, the unit is a free noun.
func quantityFromNode(node *Node, as role) (Quantity, error) {
	for depth := 0; node.Kind == AliasNode || node.Kind == DocumentNode && len(node.Content) == 1; depth++ {
		if depth > maxDepth {
			return Quantity{}, &QuantityError{Reason: "it is an anchor that holds itself", Accepted: as.accepted()}
		}
		if node.Kind == AliasNode {
			node = node.Alias
		} else {
			node = node.Content[0]
		}
	}
	switch node.Kind {
	case ScalarNode:
		return parse(node.Value, as)
	case MappingNode:
		var o quantityObject
		reason := decodeObject(node, &o)
		if reason == "" {
			var q Quantity
			if q, reason = o.quantity(as); reason == "" {
				return q, nil
			}
		}
		return Quantity{}, &QuantityError{Reason: reason, Accepted: as.accepted()}
	}
	return Quantity{}, &QuantityError{Reason: "it is a list", Accepted: as.accepted()}
}

// decodeObject decodes the mapping of a quantity; its size may have either
// spelling, and unknown keys are errors. It returns the reason when it cannot.
func decodeObject(node *Node, o *quantityObject) string {
	known := map[string]bool{}
	for _, f := range keysOf(quantityObjectType) {
		known[f.key] = true
	}
	rest := *node
	rest.Content = nil
	for i := 0; i+1 < len(node.Content); i += 2 {
		key, value := node.Content[i].Value, node.Content[i+1]
		if !known[key] {
			return fmt.Sprintf("%q is no key of a quantity", key)
		}
		if key == "size" && !isNull(value) {
			size, err := quantityFromNode(value, asAmount)
			if err != nil {
				return "its size: " + reasonOf(err)
			}
			o.Size = size.object()
			continue
		}
		rest.Content = append(rest.Content, node.Content[i], value)
	}
	size := o.Size
	if err := rest.Decode(o); err != nil {
		return strings.TrimPrefix(strings.Join(strings.Fields(err.Error()), " "), "yaml: ")
	}
	o.Size = size
	return ""
}

// quantity turns the object spelling into a quantity. Where text stands beside
// the numbers, both must say the same. It returns the reason when it cannot.
func (o *quantityObject) quantity(as role) (Quantity, string) {
	q := Quantity{Vague: o.Vague, Overnight: o.Overnight, By: o.By}
	if len(o.By) == 0 {
		q.By = nil
	}
	if o.About != nil {
		q.About = *o.About
	}
	if o.Unit != nil {
		q.Unit = *o.Unit
		if row := spelledUnit(strings.Join(strings.Fields(q.Unit), " ")); row != nil && as != asYield {
			q.Unit = row.name
		}
	}
	if (o.Min == nil) != (o.Max == nil) {
		return Quantity{}, "min and max stand together; a single value has both alike"
	}
	numbers := o.Min != nil
	if numbers {
		q.Min, q.Max = *o.Min, *o.Max
	}
	if o.Size != nil {
		size, reason := o.Size.quantity(asAmount)
		if reason != "" {
			return Quantity{}, "its size: " + reason
		}
		q.Size = &size
	}
	text := strings.Join(strings.Fields(o.Text), " ")
	switch {
	case q.Vague != "":
		if text != "" && text != strings.Join(strings.Fields(q.Vague), " ") {
			return Quantity{}, fmt.Sprintf("the text %q and the vague words %q differ", shorten(o.Text), shorten(o.Vague))
		}
		text = ""
	case q.Overnight:
		if numbers && (q.Min != overnightMin || q.Max != overnightMax || q.Unit != "hour") {
			return Quantity{}, "overnight is 8 to 12 hours; leave overnight out for another time"
		}
		q.Min, q.Max, q.Unit = overnightMin, overnightMax, "hour"
	case !numbers && text == "":
		return Quantity{}, "it has no numbers; it needs min and max, vague, overnight or text"
	}
	if text != "" {
		typed, err := parse(text, as)
		if err != nil {
			return Quantity{}, fmt.Sprintf("its text %q: %s", shorten(text), reasonOf(err))
		}
		if !numbers && !q.Overnight {
			return typed, ""
		}
		q = q.canonicalUnits()
		if !typed.sameFields(q, fractionSlack) {
			return Quantity{}, fmt.Sprintf("the text %q and the numbers beside it say different things; change both or leave the text out", shorten(o.Text))
		}
		return typed, ""
	}
	if err := q.check(as); err != nil {
		return Quantity{}, reasonOf(err)
	}
	return q.canonical(), ""
}

// canonicalUnits gives q with its unit in the form's spelling and its numbers
// as they are.
func (q Quantity) canonicalUnits() Quantity {
	if row := sameWord(q.Unit); row != nil {
		q.Unit = row.name
	}
	return q
}

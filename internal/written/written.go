// Package written reads a recipe that somebody wrote down, in Markdown, plain
// text, or a saved page with schema.org data, and compares it with the recipe
// told in a recording.
//
// Reading is by lines: a heading, the way a line begins and the quantity at its
// head tell what it is. Every fact keeps its line, so that a difference can be
// shown with the line on one side and the moment on the other.
package written

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"quern/schema"
)

// Errors about a written recipe; each comes with the file's name.
var (
	// ErrNoRecipe means that neither ingredients nor steps were found.
	ErrNoRecipe = errors.New("no recipe found in it")
	// ErrTooLarge means that the file is over MaxBytes.
	ErrTooLarge = errors.New("larger than 8 MB; a written recipe is far smaller")
	// ErrNotText means that the bytes are no text in UTF-8.
	ErrNotText = errors.New("not text in UTF-8")
)

// MaxBytes is the largest file that is read as a written recipe.
const MaxBytes = 8 << 20

// Bounds of what is read of a file: what is beyond them is no recipe, and left
// out. Lengths are in bytes.
const (
	mostSteps       = 2000
	mostIngredients = 2000
	longestLine     = 400  // of an ingredient
	longestStep     = 4000 // after which a paragraph's next line is a step of its own
)

// Recipe is a recipe as written.
type Recipe struct {
	Name        string // of the file
	Title       string
	TitleLine   int // from 1; 0 where there is no title
	Yield       *schema.Quantity
	YieldLine   int
	YieldText   string
	Ingredients []Ingredient
	Steps       []Step
}

// Ingredient is one written line of the ingredients.
type Ingredient struct {
	Line        int    // from 1
	Text        string // the line, without the mark it begins with
	Part        string // the heading it stands under, "" for none
	Amount      *schema.Quantity
	Second      *schema.Quantity // the same amount in another measure
	Size        *schema.Quantity // of the can or packet
	Name        string
	Preparation string
	Optional    bool
	ToTaste     bool
}

// Step is one written step.
type Step struct {
	Line int // from 1
	Text string
	Part string
}

// Read reads a written recipe. name is the file's name for messages. The error
// wraps ErrNoRecipe, ErrTooLarge or ErrNotText.
func Read(name string, data []byte) (*Recipe, error) {
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("%s: %w", name, ErrTooLarge)
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0 {
		return nil, fmt.Errorf("%s: %w; save it as UTF-8", name, ErrNotText)
	}
	text := strings.ReplaceAll(strings.ReplaceAll(string(data), "\r\n", "\n"), "\r", "\n")
	r := &Recipe{Name: name}
	if isPage(text) {
		if !r.readPage(text) {
			return nil, fmt.Errorf("%s: %w: the page carries no schema.org Recipe; copy its text into a .txt file", name, ErrNoRecipe)
		}
	} else {
		r.readLines(strings.Split(text, "\n"))
	}
	if len(r.Ingredients) == 0 && len(r.Steps) == 0 {
		return nil, fmt.Errorf("%s: %w; write the ingredients as lines like %q and the method as lines below a heading", name, ErrNoRecipe, "2 cups flour")
	}
	r.Steps = r.Steps[:min(len(r.Steps), mostSteps)]
	return r, nil
}

// Looks tells whether a text is a written recipe rather than talk: at least
// two of its lines are ingredients with an amount and no line of talk is long.
func Looks(data []byte) bool {
	r, err := Read("", data)
	if err != nil {
		return false
	}
	amounts := 0
	for _, ing := range r.Ingredients {
		if ing.Amount != nil {
			amounts++
		}
	}
	return amounts >= 2
}

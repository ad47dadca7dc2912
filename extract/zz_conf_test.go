package extract

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/internal/transcript"
)

func TestZZ(t *testing.T) {
	text := os.Getenv("ZZ")
	n, _ := transcript.Read("x.txt", strings.NewReader(text))
	tk := &talk{n: n, lex: lexicon.Load()}
	tk.toks = language.Tokens(n)
	tk.ids = tk.lex.IDs(tk.toks)
	for _, p := range passes {
		tk.pass = p.name
		p.run(tk)
	}
	for _, it := range tk.figureItems(0, len(tk.toks)) {
		fmt.Println(it, tk.phrase(it.First, it.Last))
	}
	fmt.Println(tk.spoken)
}

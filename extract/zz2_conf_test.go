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

func TestYY(t *testing.T) {
	b, _ := os.ReadFile(os.Getenv("YY"))
	n, _ := transcript.Read(os.Getenv("YY"), strings.NewReader(string(b)))
	tk := &talk{n: n, lex: lexicon.Load()}
	tk.toks = language.Tokens(n)
	tk.ids = tk.lex.IDs(tk.toks)
	for _, p := range passes {
		tk.pass = p.name
		p.run(tk)
	}
	mk := tk.markAgain()
	for k := range tk.quantities {
		q := &tk.quantities[k]
		if mk[q.First] == first || q.kind != duration && q.kind != heat {
			continue
		}
		key := tk.around(k)
		fmt.Println("AGAIN", tk.phrase(q.First, q.Last), "cond", tk.conditionalAt(q.First), "retells", tk.retells(tk.sentence(q.First)), key)
		for i := range tk.quantities {
			o := &tk.quantities[i]
			if o.kind == q.kind && o.First < q.First {
				if n := agree(key, tk.around(i)); n > 0 || os.Getenv("YV") != "" {
					fmt.Println("    ", n, tk.phrase(o.First, o.Last), "further", tk.furtherOf(o), "tell", tk.telling(tk.sentence(o.First)), "cond", tk.conditionalAt(o.First), "dish", tk.dishOf(o.First), tk.dishOf(q.First), tk.around(i))
				}
			}
		}
	}
}

package extract

import (
	"fmt"
	"os"
	"testing"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/internal/transcript"
)

func TestDebugDump(t *testing.T) {
	f := os.Getenv("DUMP")
	if f == "" {
		t.Skip()
	}
	data, _ := os.ReadFile(f)
	n, err := transcript.Parse(f, data)
	if err != nil {
		t.Fatal(err)
	}
	tk := &talk{n: n, lex: lexicon.Load()}
	tk.toks = language.Tokens(n)
	tk.ids = tk.lex.IDs(tk.toks)
	for _, p := range passes {
		tk.pass = p.name
		p.run(tk)
	}
	kn := []string{"plain", "instr", "list", "aside", "store", "figs", "yield"}
	for k := range tk.sents {
		s := &tk.sents[k]
		fmt.Printf("%s [%s%s%s] ", tk.at(s.First), kn[s.kind], map[bool]string{true: " past"}[s.past], map[bool]string{true: " FORGOT"}[s.forgotten])
		for i := s.First; i < s.Last; i++ {
			w := tk.norm(i)
			if a := tk.actionAt[i]; a >= 0 {
				w = "<" + w + "/" + []string{"imp", "plan", "pass", "perm", "NEG", "rec", "cond"}[tk.actions[a].mood] + ">"
			}
			if m := tk.mentionAt[i]; m >= 0 {
				mm := tk.mentions[m]
				w = "{" + w
				if mm.head.First == i {
					if mm.ingr != nil {
						w += "=" + mm.ingr.name
					} else if mm.subst >= 0 {
						w += "~sub"
					} else {
						w += "!no"
					}
				}
				w += "}"
			}
			if tk.toolAt[i] >= 0 {
				w = "[" + w + "]"
			}
			if q := tk.quantityAt[i]; q >= 0 && tk.quantities[q].First == i {
				w = "#" + w
			}
			fmt.Print(w, " ")
		}
		fmt.Println()
		for _, m := range tk.mentionsIn(s.First, s.Last) {
			mm := tk.mentions[m]
			if mm.ingr == nil && os.Getenv("WHY") != "" {
				fmt.Printf("        [%s] %s neg=%v cmp=%v mix=%v alias=%d sub=%d naming=%v acting=%v amounts=%d kind=%s flags=%+v\n", mm.why, mm.name, mm.negated, mm.compared, mm.mixed, mm.alias, mm.subst, s.naming, tk.actionFor(s, &mm), len(mm.amounts), kn[s.kind], *mm.food)
			}
		}
	}
}

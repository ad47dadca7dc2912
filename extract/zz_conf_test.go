package extract

import (
	"bufio"
	"fmt"
	"os"
	"strings"
	"testing"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/internal/transcript"
)

func TestZZ(t *testing.T) {
	f, _ := os.Open(os.Getenv("ZZ"))
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		text := sc.Text()
		n, _ := transcript.Read("x.txt", strings.NewReader(text))
		tk := &talk{n: n, lex: lexicon.Load()}
		tk.toks = language.Tokens(n)
		tk.ids = tk.lex.IDs(tk.toks)
		for _, p := range passes {
			tk.pass = p.name
			p.run(tk)
		}
		y := "none"
		if tk.yield != nil {
			y = tk.yield.String()
		}
		cl := ""
		for _, c := range tk.claims {
			cl += c.Claim + " "
		}
		fl := ""
		for _, d := range tk.docs {
			for _, f := range d.Flags {
				if strings.HasPrefix(f.Kind, "conf") {
					fl += f.Kind + ":" + f.Ask + " "
				}
			}
		}
		fmt.Println(y, "|", cl, "|", fl, "|", text)
	}
}

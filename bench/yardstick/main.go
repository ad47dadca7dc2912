// Command yardstick is what quern is timed against: it reads each file and
// makes a prose document of it with the library's defaults, one after another,
// and does nothing else.
//
//	yardstick FILE…
package main

import (
	"fmt"
	"os"

	"github.com/jdkato/prose/v2"
)

func main() {
	words := 0
	for _, name := range os.Args[1:] {
		data, err := os.ReadFile(name)
		if err != nil {
			fail(err)
		}
		doc, err := prose.NewDocument(string(data))
		if err != nil {
			fail(fmt.Errorf("%s: %w", name, err))
		}
		words += len(doc.Tokens())
	}
	fmt.Println(words, "tokens")
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, "yardstick:", err)
	os.Exit(1)
}

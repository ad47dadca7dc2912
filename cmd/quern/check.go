package main

import (
	"bytes"
	"fmt"

	"github.com/spf13/cobra"

	"quern/schema"
)

// checkCommand validates documents and lists what is open in them.
func checkCommand() *cobra.Command {
	var strict bool
	var foods string
	cmd := &cobra.Command{
		Use:   "check FILE… [--strict] [--foods FILE]",
		Short: "check a recipe document and list its open flags",
		Long: `quern check reads recipe documents, YAML or JSON, as they stand after editing.
What doesn't fit the form is told on standard error with the line, the field,
what was found and what is accepted, and the exit code is 1. What is open in
each recipe is listed on standard output, a line a flag. A FILE of - is
standard input. No file is changed.`,
		Example: `  quern check bars.yaml
  quern check --strict bars.yaml && echo "all settled"`,
		Args: wantFiles("the FILE of a recipe document", "quern check bars.yaml"),
		RunE: func(cmd *cobra.Command, args []string) error {
			open := 0
			t := newTerminal(cmd.ErrOrStderr())
			err := eachFile(cmd.Context(), t, args, func(file string) error {
				docs, err := checkedDocuments(cmd, t, file)
				if err != nil {
					return err
				}
				own, err := ownFoods(foods, file)
				if err != nil {
					return err
				}
				var b bytes.Buffer
				// Painted for where it is going, written in one piece.
				page := &terminal{w: &b, colour: newTerminal(cmd.OutOrStdout()).colour}
				for _, doc := range docs {
					derived(doc, own)
					open += len(doc.Open())
					page.summary(file, doc)
				}
				return emit(cmd, b.Bytes())
			})
			if err == nil && strict && open > 0 {
				return errFlagsOpen
			}
			return err
		},
	}
	cmd.Flags().BoolVar(&strict, "strict", false, "end with exit code 3 when flags are open")
	cmd.Flags().StringVar(&foods, "foods", "", "`FILE` of your own foods; foods.yaml beside the recipe if left out")
	return cmd
}

// checkedDocuments reads the documents of a file and tells every problem.
func checkedDocuments(cmd *cobra.Command, t *terminal, file string) ([]*schema.Document, error) {
	data, err := readDocument(cmd, file)
	if err != nil {
		return nil, err
	}
	name := shownName(file)
	problems := schema.Validate(name, data)
	for _, p := range problems {
		t.line(printable(p.String()))
	}
	if len(problems) > 0 {
		return nil, fmt.Errorf("%s: %s; see the lines above", name, count(len(problems), "problem"))
	}
	return schema.ReadAll(name, data)
}

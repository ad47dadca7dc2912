package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"quern/internal/written"
)

// compareCommand shows how a recording and its written recipe differ.
func compareCommand() *cobra.Command {
	var format string
	var strict bool
	cmd := &cobra.Command{
		Use:   "compare TRANSCRIPT WRITTEN [--format text|json] [--strict]",
		Short: "show how a recording and its written recipe differ",
		Long: `quern compare reads a transcript and a recipe that is already written down for
the same dish, and lists in what they differ: how much it makes, amounts,
ingredients, temperatures and times, steps that only one of them has. Each
difference comes with the moment and words of the recording and with the line of
the written recipe.

WRITTEN is Markdown, plain text, or a saved page that carries a schema.org
Recipe. Ranges that overlap agree, temperatures within 10 F, and amounts in two
measures when one can be worked out from the other. A sentence can be put in so
many ways that a step may be listed which the other side has in other words.`,
		Example: `  quern compare bars.vtt bars.md
  quern compare bars.vtt page.html --format json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 2 {
				return fmt.Errorf("compare wants a TRANSCRIPT and a WRITTEN recipe; for example: quern compare bars.vtt bars.md")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := oneOf("format", format, "text", "json"); err != nil {
				return err
			}
			if args[0] == "-" && args[1] == "-" {
				return wrongCall("only one of the two can be standard input")
			}
			n, err := readNarration(cmd, args[0])
			if err != nil {
				return err
			}
			data, err := readDocument(cmd, args[1])
			if err != nil {
				return err
			}
			recipe, err := written.Read(shownName(args[1]), data)
			if err != nil {
				return err
			}
			t := newTerminal(cmd.ErrOrStderr())
			doc := written.Nearest(recipes(n, nil, false, t), recipe)
			differences := written.Compare(doc, recipe)
			if err := emitDifferences(cmd, format, args, differences); err != nil {
				return err
			}
			if strict && len(differences) > 0 {
				return errFlagsOpen
			}
			return nil
		},
	}
	cmd.Flags().StringVar(&format, "format", "text", "`FORM` of the output: text or json")
	cmd.Flags().BoolVar(&strict, "strict", false, "end with exit code 3 when they differ")
	return cmd
}

// emitDifferences writes the differences, by kind.
func emitDifferences(cmd *cobra.Command, format string, files []string, differences []written.Difference) error {
	var b bytes.Buffer
	if format == "json" {
		if differences == nil {
			differences = []written.Difference{}
		}
		enc := json.NewEncoder(&b)
		enc.SetEscapeHTML(false)
		if err := enc.Encode(differences); err != nil {
			return fmt.Errorf("%s: %w", shownName(files[0]), err)
		}
		return emit(cmd, b.Bytes())
	}
	page := &terminal{w: &b, colour: newTerminal(cmd.OutOrStdout()).colour}
	if len(differences) == 0 {
		page.line("no differences found")
	}
	for _, k := range written.Kinds() {
		first := true
		for _, d := range differences {
			if d.Kind != k.Kind {
				continue
			}
			if first {
				page.line(page.paint(strong, k.Words))
				first = false
			}
			page.difference(d)
		}
	}
	return emit(cmd, b.Bytes())
}

// difference writes one difference: what it is about, then each side with its
// place.
func (t *terminal) difference(d written.Difference) {
	about := printable(strings.TrimSuffix(d.About, "."))
	if d.Note != "" {
		about += t.paint(faint, " ("+printable(d.Note)+")")
	}
	t.line("  " + about)
	if d.Spoken != "" || d.Quote != "" {
		moment := shortMoment(d.At)
		if moment == "" {
			moment = "-"
		}
		line := fmt.Sprintf("%s spoken   %s", t.paint(faint, fmt.Sprintf("%11s", moment)), printable(orDash(d.Spoken, d.About)))
		if d.Quote != "" {
			line += "  " + t.paint(faint, `"`+printable(d.Quote)+`"`)
		}
		t.line(line)
	}
	if d.Written != "" || d.Line > 0 {
		place := "-"
		if d.Line > 0 {
			place = fmt.Sprintf("line %d", d.Line)
		}
		line := fmt.Sprintf("%s written  %s", t.paint(faint, fmt.Sprintf("%11s", place)), printable(orDash(d.Written, d.About)))
		if d.Text != "" && d.Text != d.Written {
			line += "  " + t.paint(faint, `"`+printable(d.Text)+`"`)
		}
		t.line(line)
	}
}

// orDash writes what one side has; a side that only repeats what the
// difference is about needs no words of its own.
func orDash(text, about string) string {
	switch text {
	case "":
		return "not said"
	case about:
		return "so"
	}
	return text
}

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"quern/internal/transcript"
)

// readCommand shows a transcript as it was read.
func readCommand() *cobra.Command {
	var format string
	cmd := &cobra.Command{
		Use:   "read FILE… [--format text|json]",
		Short: "show a transcript as quern reads it",
		Long: `quern read shows a transcript as it was read: its format and encoding, and each
cue with its time and its words. Words that captions repeat are shown once. It
is the place to look when a moment or a word in a recipe seems wrong. With
--format json every word has its time, one line of JSON for each file.`,
		Example: `  quern read talk.vtt
  quern read talk.srt --format json`,
		Args: wantFiles("the FILE of a transcript", "quern read talk.vtt"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := oneOf("format", format, "text", "json"); err != nil {
				return err
			}
			first := true
			return eachFile(cmd.Context(), newTerminal(cmd.ErrOrStderr()), args, func(file string) error {
				n, err := readNarration(cmd, file)
				if err != nil {
					return err
				}
				if format == "json" {
					return emitNarration(cmd, n)
				}
				text := narrationText(n)
				if !first {
					text = append([]byte("\n"), text...)
				}
				first = false
				return emit(cmd, text)
			})
		},
	}
	cmd.Flags().StringVar(&format, "format", "text", "`FORM` of the output: text or json")
	return cmd
}

// narrationText writes a narration for a person: a head, then a line a cue.
func narrationText(n *transcript.Narration) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s, %s, %s, %s", printable(shownName(n.Name)), n.Format, n.Encoding, count(len(n.Cues), "cue"), count(len(n.Words), "word"))
	if n.Timed {
		fmt.Fprintf(&b, ", %s long", shortMoment(transcript.Stamp(n.Length)))
	}
	b.WriteString("\n")
	if n.Heading != "" {
		fmt.Fprintf(&b, "heading: %s\n", printable(n.Heading))
	}
	for _, c := range n.Cues {
		if n.Timed {
			fmt.Fprintf(&b, "%s - %s  ", transcript.Stamp(c.Start), transcript.Stamp(c.End))
		}
		if c.Voice != "" {
			fmt.Fprintf(&b, "(%s) ", printable(c.Voice))
		}
		b.WriteString(printable(c.Text) + "\n")
	}
	return b.Bytes()
}

// The JSON of a narration. Times are WebVTT timestamps, null where there are
// none.
type (
	narrationJSON struct {
		Name     string        `json:"name"`
		Format   string        `json:"format"`
		Encoding string        `json:"encoding"`
		Heading  string        `json:"heading"`
		SHA256   string        `json:"sha256"`
		Timed    bool          `json:"timed"`
		Length   *string       `json:"length"`
		Cues     []cueJSON     `json:"cues"`
		Warnings []warningJSON `json:"warnings"`
	}
	cueJSON struct {
		Start *string    `json:"start"`
		End   *string    `json:"end"`
		Line  int        `json:"line"`
		Voice string     `json:"voice"`
		Text  string     `json:"text"`
		Words []wordJSON `json:"words"`
	}
	wordJSON struct {
		At   *string `json:"at"`
		Text string  `json:"text"`
	}
	warningJSON struct {
		Line int    `json:"line"`
		Text string `json:"text"`
	}
)

// emitNarration writes a narration as one line of JSON.
func emitNarration(cmd *cobra.Command, n *transcript.Narration) error {
	stamp := func(d time.Duration) *string {
		if !n.Timed {
			return nil
		}
		s := transcript.Stamp(d)
		return &s
	}
	out := narrationJSON{
		Name: n.Name, Format: n.Format, Encoding: n.Encoding, Heading: n.Heading, SHA256: n.SHA256, Timed: n.Timed,
		Length: stamp(n.Length), Cues: make([]cueJSON, len(n.Cues)), Warnings: make([]warningJSON, len(n.Warnings)),
	}
	for i, c := range n.Cues {
		words := make([]wordJSON, c.Last-c.First)
		for j, w := range n.Words[c.First:c.Last] {
			words[j] = wordJSON{stamp(w.At), w.Text}
		}
		out.Cues[i] = cueJSON{stamp(c.Start), stamp(c.End), c.Line, c.Voice, c.Text, words}
	}
	for i, w := range n.Warnings {
		out.Warnings[i] = warningJSON(w)
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(out); err != nil {
		return fmt.Errorf("%s: %w", shownName(n.Name), err)
	}
	return emit(cmd, b.Bytes())
}

package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
)

// helpCommand shows what a command does and how it is called.
func helpCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "show what a command does and how it is called",
		Args:  cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			root := cmd.Root()
			if len(args) == 0 {
				return writeHelp(cmd.OutOrStdout(), root)
			}
			if err := knownCommand(root, args); err != nil {
				return err
			}
			for _, c := range root.Commands() {
				if c.Name() == args[0] || c.HasAlias(args[0]) {
					return writeHelp(cmd.OutOrStdout(), c)
				}
			}
			return writeHelp(cmd.OutOrStdout(), cmd)
		},
	}
}

const rootHelp = `quern reads the timed transcript of a filmed recipe and writes the recipe that
was told in it. Every fact carries the moment and the words it came from. An
amount nobody said, and two things that can't both be true, become flags: each
asks one question. Nothing is made up, and nothing leaves this computer.

use: quern COMMAND [FLAGS] FILE…

`

const rootTail = `
exit codes
  0  done
  1  it failed: a file could not be read or written, or a document doesn't fit
  2  the call was wrong: no such command or flag, or a FILE is missing
  3  with --strict: flags are open, or compare found a difference

examples
  quern extract --example           try it on the narration that comes along
  quern extract talk.vtt            print the recipe told in talk.vtt
  quern extract talk.vtt -o bars.yaml
                                    keep it; edits made there before stay
  quern check bars.yaml             see what is still open
  quern fill bars.yaml              answer the open flags
  quern write bars.yaml --as html   set it as a page
  quern help extract                all that extract can do
`

// writeHelp writes the help of a command.
func writeHelp(w io.Writer, cmd *cobra.Command) error {
	var b strings.Builder
	if !cmd.HasParent() {
		b.WriteString(rootHelp)
		b.WriteString("commands\n")
		for _, c := range cmd.Commands() {
			if c.IsAvailableCommand() || c.Name() == "help" {
				fmt.Fprintf(&b, "  %-9s %s\n", c.Name(), c.Short)
			}
		}
		b.WriteString(rootTail)
		_, err := io.WriteString(w, b.String())
		return err
	}
	if cmd.Long != "" {
		b.WriteString(strings.TrimSpace(cmd.Long) + "\n\n")
	} else {
		b.WriteString(cmd.CommandPath() + ": " + cmd.Short + "\n\n")
	}
	b.WriteString("use: " + cmd.UseLine() + "\n")
	if flags := cmd.LocalFlags(); flags.HasAvailableFlags() {
		b.WriteString("\nflags\n" + flags.FlagUsagesWrapped(80))
	}
	if cmd.Example != "" {
		b.WriteString("\nexamples\n" + strings.Trim(cmd.Example, "\n") + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

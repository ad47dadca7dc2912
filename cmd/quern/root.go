package main

import (
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// commands lists the commands in the order in which help shows them.
func commands() []*cobra.Command {
	return []*cobra.Command{
		extractCommand(),
		readCommand(),
		checkCommand(),
		fillCommand(),
		reviewCommand(),
		writeCommand(),
		macrosCommand(),
		compareCommand(),
		batchCommand(),
		versionCommand(),
	}
}

// rootCommand builds the program's tree of commands.
func rootCommand() *cobra.Command {
	cobra.EnableCommandSorting = false // help shows the order of commands()
	root := &cobra.Command{
		Use:           "quern",
		Short:         "turn the transcript of a filmed recipe into a written one",
		Args:          cobra.ArbitraryArgs,
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE: func(cmd *cobra.Command, args []string) error {
			return writeHelp(cmd.OutOrStdout(), cmd)
		},
	}
	root.CompletionOptions.DisableDefaultCmd = true
	root.AddCommand(commands()...)
	help := helpCommand()
	root.SetHelpCommand(help)
	root.SetHelpFunc(func(cmd *cobra.Command, _ []string) {
		if err := writeHelp(cmd.OutOrStdout(), cmd); err != nil {
			newTerminal(cmd.ErrOrStderr()).failure(err)
		}
	})
	root.SetFlagErrorFunc(flagError)
	for _, c := range append(root.Commands(), root, help) {
		c.Flags().BoolP("help", "h", false, "show this help")
		c.DisableFlagsInUseLine = true
		c.Args = callErrors(c.Args)
	}
	return root
}

// callErrors makes what a command says of its arguments an error in the call.
func callErrors(check cobra.PositionalArgs) cobra.PositionalArgs {
	if check == nil {
		return nil
	}
	return func(cmd *cobra.Command, args []string) error {
		if err := check(cmd, args); err != nil {
			return wrongCall("%w; see quern help %s", err, cmd.Name())
		}
		return nil
	}
}

// knownCommand says whether the first argument names a command, and what was
// likely meant if it does not.
func knownCommand(root *cobra.Command, args []string) error {
	if len(args) == 0 || strings.HasPrefix(args[0], "-") {
		return nil
	}
	names := []string{"help"}
	for _, c := range root.Commands() {
		names = append(names, c.Name())
		names = append(names, c.Aliases...)
	}
	if slices.Contains(names, args[0]) {
		return nil
	}
	if _, err := os.Stat(args[0]); err == nil {
		return wrongCall("%q is a file, not a command; write: quern extract %s", args[0], args[0])
	}
	if near := nearest(args[0], names); near != "" {
		return wrongCall("no command %q; did you mean %q?", args[0], near)
	}
	return wrongCall("no command %q; quern help lists the commands", args[0])
}

// flagError explains a flag that cannot be read.
func flagError(cmd *cobra.Command, err error) error {
	if name, ok := strings.CutPrefix(err.Error(), "unknown flag: --"); ok {
		var names []string
		cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
		if near := nearest(name, names); near != "" {
			return wrongCall("%w; did you mean --%s?", err, near)
		}
	}
	return wrongCall("%w; see %s", err, strings.TrimSpace("quern help "+strings.TrimPrefix(cmd.Name(), "quern")))
}

// nearest gives the name that a slip of the keyboard likely meant: at most two
// letters apart and less than half of the word, or begun alike. It is "" when
// none is near.
func nearest(word string, names []string) string {
	best, distance := "", 3
	for _, name := range names {
		d := letters(word, name)
		if len(word) >= 3 && strings.HasPrefix(name, word) {
			d = 0
		}
		if d < distance && 2*d < max(len(word), len(name)) {
			best, distance = name, d
		}
	}
	return best
}

// letters counts the letters to change, add, leave out or swap with their
// neighbour to make b of a.
func letters(a, b string) int {
	from, to := []rune(a), []rune(b)
	if len(from) > 64 {
		return len(from)
	}
	before, last := make([]int, len(to)+1), make([]int, len(to)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(from); i++ {
		now := make([]int, len(to)+1)
		now[0] = i
		for j := 1; j <= len(to); j++ {
			change := 1
			if from[i-1] == to[j-1] {
				change = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && from[i-1] == to[j-2] && from[i-2] == to[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last = last, now
	}
	return last[len(to)]
}

// oneOf refuses a flag's value that is none of the accepted ones.
func oneOf(flag, value string, accepted ...string) error {
	if slices.Contains(accepted, value) {
		return nil
	}
	return wrongCall("--%s %q is not known; accepted: %s", flag, value, strings.Join(accepted, ", "))
}

// wantFiles refuses a call without a FILE and says how to make one.
func wantFiles(what, example string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) == 0 {
			return fmt.Errorf("%s wants %s, or - for standard input; for example: %s", cmd.Name(), what, example)
		}
		return nil
	}
}

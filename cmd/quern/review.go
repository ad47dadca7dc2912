package main

import (
	"errors"
	"fmt"
	"net/http"

	"github.com/spf13/cobra"

	"quern/internal/nutrition"
	"quern/internal/review"
)

// reviewCommand serves the page on which open flags are settled.
func reviewCommand() *cobra.Command {
	var opt review.Options
	var port int
	var foods string
	cmd := &cobra.Command{
		Use:   "review FOLDER|FILE… [--recording FILE] [--port N] [--foods FILE]",
		Short: "settle the open flags on a page in your browser",
		Long: `quern review serves a page on this computer, and to this computer only, until
you press Ctrl-C. It lists the recipes with their open flags; for each it shows
the talk with its words marked by what they became, the recipe as it reads now,
and a field for every question. Choosing a fact shows its moment, and choosing
words of the talk shows what became of them; with --recording the recording
plays from there.

A save checks what was typed, writes the document, and works out again what
follows from it. The document as it was at the start is kept as FILE~, and saves
can be taken back one by one. When a document changes in another window or an
editor, the next save is told and nothing is written over.

Open the address it prints. It holds a secret that is new each time; the page
needs no network.`,
		Example: `  quern review recipes/
  quern review bars.yaml --recording bars.mp4
  quern review bars.yaml cake.yaml --port 8123`,
		Args: wantFiles("a FOLDER or the FILE of a recipe document", "quern review bars.yaml"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if port < 0 || port > 65535 {
				return wrongCall("--port %d is no port; give 1 to 65535, or leave it out", port)
			}
			for _, a := range args {
				if a == "-" {
					return wrongCall("review changes files; name them")
				}
			}
			opt.Foods = func(document string) (*nutrition.Own, error) { return ownFoods(foods, document) }
			server, err := review.New(args, opt)
			if err != nil {
				return err
			}
			listener, address, err := server.Listen(port)
			if err != nil {
				return err
			}
			if err := emit(cmd, []byte(address+"\n")); err != nil {
				return errors.Join(err, listener.Close())
			}
			t := newTerminal(cmd.ErrOrStderr())
			t.line("open this address in your browser; Ctrl-C ends the review")
			if err := server.Serve(cmd.Context(), listener); err != nil && !errors.Is(err, http.ErrServerClosed) {
				return fmt.Errorf("the review ended: %w", err)
			}
			t.line("the review has ended; everything saved is in the files")
			return nil
		},
	}
	flags := cmd.Flags()
	flags.SortFlags = false
	flags.StringVar(&opt.Recording, "recording", "", "video or sound `FILE` to play from the moments of the talk")
	flags.IntVar(&port, "port", 0, "`N` of the port to serve on; without it a free one is taken")
	flags.StringVar(&foods, "foods", "", "`FILE` of your own foods; foods.yaml beside the recipe if left out")
	return cmd
}

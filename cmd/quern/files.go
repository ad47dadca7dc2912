package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"quern/internal/transcript"
)

// maxDocument is the largest recipe document that is read, in bytes.
const maxDocument = 64 << 20

// withInput opens the named file, or standard input for "-", and gives it to
// read. It returns early when the person presses Ctrl-C while the program
// waits for input.
func withInput[T any](cmd *cobra.Command, name string, read func(io.Reader) (T, error)) (T, error) {
	var none T
	in := cmd.InOrStdin()
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return none, fileError(name, err)
		}
		defer f.Close()
		if info, err := f.Stat(); err == nil && info.IsDir() {
			return none, fmt.Errorf("%s: it is a folder; name a file in it", name)
		}
		in = f
	}
	type result struct {
		value T
		err   error
	}
	ctx := cmd.Context()
	done := make(chan result, 1)
	go func() {
		value, err := read(in)
		done <- result{value, err}
	}()
	select {
	case r := <-done:
		return r.value, r.err
	case <-ctx.Done():
		return none, errStopped
	}
}

// fileError says in plain words why a file could not be opened.
func fileError(name string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: %w; check the name", name, fs.ErrNotExist)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: %w; it may not be read by you", name, fs.ErrPermission)
	}
	return fmt.Errorf("%s: cannot open it: %w", name, err)
}

// readNarration reads a transcript and tells what is odd in it.
func readNarration(cmd *cobra.Command, name string) (*transcript.Narration, error) {
	n, err := withInput(cmd, name, func(r io.Reader) (*transcript.Narration, error) {
		return transcript.Read(name, r)
	})
	if err != nil {
		return nil, err
	}
	t := newTerminal(cmd.ErrOrStderr())
	for _, w := range n.Warnings {
		t.warning(name, w.Line, w.Text)
	}
	return n, nil
}

// readDocument reads the bytes of a recipe document.
func readDocument(cmd *cobra.Command, name string) ([]byte, error) {
	return withInput(cmd, name, func(r io.Reader) ([]byte, error) {
		data, err := io.ReadAll(io.LimitReader(r, maxDocument+1))
		if err != nil {
			return nil, fmt.Errorf("%s: cannot read it: %w", shownName(name), err)
		}
		if len(data) > maxDocument {
			return nil, fmt.Errorf("%s: larger than 64 MB; a recipe document is far smaller", shownName(name))
		}
		return data, nil
	})
}

// eachFile calls do for every file. One that fails is reported and the rest go
// on; at the end errReported stands for those. Ctrl-C ends it.
func eachFile(ctx context.Context, t *terminal, files []string, do func(file string) error) error {
	failed := false
	for _, file := range files {
		if ctx.Err() != nil {
			return errStopped
		}
		err := do(file)
		if errors.Is(err, errStopped) || errors.Is(err, errWrite) {
			return err
		}
		if err != nil {
			t.failure(err)
			failed = true
		}
	}
	if failed {
		return errReported
	}
	return nil
}

// errWrite means that the output cannot be written, so that going on is of no
// use.
var errWrite = errors.New("cannot write the output")

// emit writes to standard output.
func emit(cmd *cobra.Command, data []byte) error {
	if _, err := cmd.OutOrStdout().Write(data); err != nil {
		return fmt.Errorf("%w: %w", errWrite, err)
	}
	return nil
}

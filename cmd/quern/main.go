// Command quern reads the timed transcript of somebody who films herself
// cooking and writes the recipe she told: every fact with the moment and the
// words it came from, every amount she never said and every contradiction a
// flag that asks one question. It invents nothing.
//
// This package is flags, files, exit codes and the terminal, one file a
// command; it knows nothing of cooking.
package main

import (
	"context"
	"errors"
	"io"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run carries out one call of the program and gives its exit code.
func run(args []string, in io.Reader, out, errOut io.Writer) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	// The first Ctrl-C asks for an orderly end, a second one gets it at once.
	context.AfterFunc(ctx, stop)

	root := rootCommand()
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errOut)
	root.SetArgs(args)
	err := knownCommand(root, args)
	if err == nil {
		err = root.ExecuteContext(ctx)
	}
	if err != nil && !errors.Is(err, errReported) && !errors.Is(err, errFlagsOpen) {
		newTerminal(errOut).failure(err)
	}
	return exitCode(err)
}

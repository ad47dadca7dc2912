package main

import (
	"errors"
	"fmt"
)

// Exit codes of every command.
const (
	exitDone      = 0
	exitFailed    = 1
	exitWrongCall = 2
	exitFlagsOpen = 3
)

// errReported means that what went wrong has been told already, file by file.
var errReported = errors.New("something failed and was reported")

// errFlagsOpen means that --strict was asked for and flags are open.
var errFlagsOpen = errors.New("flags are open")

// errStopped means that the person pressed Ctrl-C.
var errStopped = errors.New("stopped; nothing is left half written")

// callError is an error in how the program was called.
type callError struct{ err error }

func (e *callError) Error() string { return e.err.Error() }
func (e *callError) Unwrap() error { return e.err }

// wrongCall makes an error that ends the program with exit code 2.
func wrongCall(format string, args ...any) error {
	return &callError{fmt.Errorf(format, args...)}
}

// exitCode gives the exit code for what a command returned.
func exitCode(err error) int {
	var call *callError
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &call):
		return exitWrongCall
	case errors.Is(err, errFlagsOpen):
		return exitFlagsOpen
	}
	return exitFailed
}

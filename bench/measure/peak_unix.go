//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// peak is the most memory a process had, in bytes: the system tells it in KiB,
// macOS in bytes.
func peak(s *os.ProcessState) int64 {
	usage, ok := s.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" {
		return int64(usage.Maxrss)
	}
	return int64(usage.Maxrss) * 1024
}

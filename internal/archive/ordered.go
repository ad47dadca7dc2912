package archive

import (
	"context"
	"sync"
)

// ordered calls work for each item that next gives, on several goroutines, and
// emit with each result in the order of the items. No more than window items
// are between next and emit, so that memory is bounded whatever their number.
// It ends when next has no more, when emit returns an error, which is returned,
// or when the context ends: what was begun is finished and emitted first.
func ordered[T, R any](ctx context.Context, workers, window int, next func() (T, bool), work func(T) R, emit func(R) error) error {
	type job struct {
		item T
		done chan R
	}
	jobs := make(chan job)
	queue := make(chan job, window)
	stop := make(chan struct{})
	var group sync.WaitGroup
	for range workers {
		group.Go(func() {
			for j := range jobs {
				j.done <- work(j.item)
			}
		})
	}
	go func() {
		defer close(queue)
		defer close(jobs)
		for ctx.Err() == nil {
			item, ok := next()
			if !ok {
				return
			}
			j := job{item, make(chan R, 1)}
			select {
			case queue <- j:
			case <-stop:
				return
			}
			jobs <- j
		}
	}()
	var failed error
	for j := range queue {
		r := <-j.done
		if failed != nil {
			continue
		}
		if failed = emit(r); failed != nil {
			close(stop)
		}
	}
	group.Wait()
	if failed != nil {
		return failed
	}
	return ctx.Err()
}

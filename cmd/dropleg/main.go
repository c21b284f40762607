package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
	"time"

	"dropleg/internal/edge/cli"
)

// What has not ended so long after it was told to waits for something that does
// not come, such as input.
const grace = 2 * time.Second

// garbage lets the heap grow to three times what is in use before it is cleared, where Go would
// stop at twice: answers are of much that lives briefly, and a quarter of the time of a job
// book went to clearing up. The largest example comes to 300 MB by it.
const garbage = 200

func main() {
	if os.Getenv("GOGC") == "" { // who sets that knows how much memory there is
		debug.SetGCPercent(garbage)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, func() {
		stop() // a second signal ends it at once
		time.Sleep(grace)
		os.Exit(130) // as a shell reports an interrupt
	})
	status := cli.Run(ctx, os.Args[1:], cli.System())
	os.Exit(status)
}

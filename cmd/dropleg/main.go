package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"

	"dropleg/internal/edge/cli"
)

// What has not ended so long after it was told to waits for something that does
// not come, such as input.
const grace = 2 * time.Second

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, func() {
		stop() // a second signal ends it at once
		time.Sleep(grace)
		os.Exit(130) // as a shell reports an interrupt
	})
	status := cli.Run(ctx, os.Args[1:], cli.System())
	os.Exit(status)
}

package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"dropleg/internal/edge/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := cli.Run(ctx, os.Args[1:], cli.System())
	stop()
	os.Exit(status)
}

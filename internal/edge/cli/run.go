package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
)

// The exit statuses.
const (
	statusWell  = 0
	statusShort = 1 // the design falls short; the findings were written
	statusInput = 2 // the input cannot be used; each problem was written
	statusFail  = 3 // the program or its machine: a file that cannot be written, a stop from outside
)

// Streams is what a command touches of the world.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
	Env      func(string) string // an environment variable, "" where it is not set
}

// System is the process's own streams.
func System() Streams {
	return Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Env: os.Getenv}
}

// Run runs one command line, without the program's name, and gives the exit status.
func Run(ctx context.Context, args []string, s Streams) int {
	c := &call{Streams: s}
	root := c.root()
	root.SetArgs(args)
	root.SetIn(s.In)
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	return c.status(root.ExecuteContext(ctx))
}

// call is one command line under way: the streams and the flags that all share.
type call struct {
	Streams
	json    bool
	units   string
	resting func() // ends what tells that a command is at work; nil while nothing does
}

// errShort says that a design falls short; what was found has been written.
var errShort = errors.New("the design falls short")

// errTold says that the input cannot be used; each problem has been written.
var errTold = errors.New("the input cannot be used")

// misuse is a command line that cannot be used: wrong flags, words, counts.
type misuse struct{ text string }

func (m misuse) Error() string { return m.text }

func misused(format string, args ...any) error { return misuse{fmt.Sprintf(format, args...)} }

// status writes what went wrong and turns it into the exit status; here and
// nowhere else.
func (c *call) status(err error) int {
	c.rest()
	var bad *badInput
	var wrong misuse
	switch {
	case err == nil:
		return statusWell
	case errors.Is(err, errShort):
		return statusShort
	case errors.Is(err, errTold):
		return statusInput
	case errors.As(err, &bad):
		c.tellProblems(bad)
		return statusInput
	case errors.As(err, &wrong):
		fmt.Fprintf(c.Err, "dropleg: %s\n", wrong.text)
		return statusInput
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(c.Err, "dropleg: stopped")
		return statusFail
	}
	fmt.Fprintf(c.Err, "dropleg: %v\n", err)
	return statusFail
}

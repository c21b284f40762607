package cli

import (
	"fmt"
	"os"
	"sync"
	"time"

	"golang.org/x/term"
)

// onTerminal says whether standard error is one: progress is for people who look on.
func (c *call) onTerminal() bool {
	f, ok := c.Err.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// clear takes the line of progress away.
const clear = "\r\x1b[K"

// patience is how long a command is silent before it says that it is at work.
const patience = 700 * time.Millisecond

// atWork tells on a terminal, after a moment and then each second, that the command is at
// work and how long it has been; rest ends that.
func (c *call) atWork() {
	c.rest()
	if !c.onTerminal() {
		return
	}
	began, at, over := time.Now(), sync.Mutex{}, false
	var tick *time.Timer
	at.Lock()
	defer at.Unlock()
	tick = time.AfterFunc(patience, func() {
		at.Lock()
		defer at.Unlock()
		if !over {
			fmt.Fprintf(c.Err, clear+"at work, %.0f s ", time.Since(began).Seconds())
			tick.Reset(time.Second)
		}
	})
	c.resting = func() {
		at.Lock()
		defer at.Unlock()
		over = true
		fmt.Fprint(c.Err, clear)
	}
}

// rest takes away what atWork tells, before anything else is written.
func (c *call) rest() {
	if c.resting != nil {
		c.resting()
		c.resting = nil
	}
}

// progress tells how far long work has come, on a terminal only.
func (c *call) progress(what string) func(done, total int) {
	c.rest()
	if !c.onTerminal() {
		return nil
	}
	return func(done, total int) {
		fmt.Fprintf(c.Err, clear+"%s: %d of %d ", what, done, total)
		if done == total {
			fmt.Fprint(c.Err, clear)
		}
	}
}

// doing tells what long work is at, on a terminal only; done takes it away.
func (c *call) doing() (tell func(doing string, done, total int), done func()) {
	c.rest()
	if !c.onTerminal() {
		return func(string, int, int) {}, func() {}
	}
	tell = func(doing string, done, total int) {
		fmt.Fprint(c.Err, clear+doing)
		if total > 0 {
			fmt.Fprintf(c.Err, ": %d of %d ", done, total)
		}
	}
	return tell, func() { fmt.Fprint(c.Err, clear) }
}

// best tells on a terminal the best so far and what nothing goes below.
func (c *call) best(what string) func(best, bound float64) {
	c.rest()
	if !c.onTerminal() {
		return nil
	}
	return func(best, bound float64) {
		fmt.Fprintf(c.Err, "\r%s %.4g, not below %.4g   ", what, best, bound)
	}
}

// bestDone ends the line that best writes over and over.
func (c *call) bestDone() {
	if c.onTerminal() {
		fmt.Fprintln(c.Err)
	}
}

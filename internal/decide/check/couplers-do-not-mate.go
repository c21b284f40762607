package check

import (
	"context"

	"dropleg/engine/cite"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

var couplersDoNotMate = Check{
	Code:  "couplers-do-not-mate",
	Title: "sockets and plugs that go together",
	Why:   "A plug of another profile does not go in, or goes in and lets go under pressure.",
	Limit: "socket and plug of one profile and body size, or a pair known to mate",
	Source: []cite.Ref{
		{Source: "iso6150", Place: "series and sizes", How: cite.Recalled},
		{Source: "pneumatic-guide", Place: "interchange of profiles", How: cite.Read},
	},
	Run: runCouplersDoNotMate,
}

// meeting is a socket and the plug that goes into it.
type meeting struct {
	socket, plug string
	where        []job.ID
	words        string
	mend         job.Edit // gives the plug the socket's profile
}

func runCouplersDoNotMate(ctx context.Context, c *Case) error {
	for i := range c.job.Outlets {
		for _, m := range c.meetings(&c.job.Outlets[i]) {
			if err := c.judgeMeeting(ctx, m); err != nil {
				return err
			}
		}
	}
	return nil
}

// meetings lists what is plugged into what at an outlet: the hose at the wall,
// tools at the hose's end, or tools right at the wall.
func (c *Case) meetings(o *job.Outlet) []meeting {
	wall := c.wallSocket(o)
	var out []meeting
	if o.Hose != nil && wall != "" && o.Hose.Plug != "" {
		out = append(out, meeting{
			wall, o.Hose.Plug,
			[]job.ID{o.Hose.ID, o.ID},
			"the plug of the hose at " + c.named(o.ID),
			cure.Set(o.Hose.ID, "plug", wall),
		})
	}
	socket := wall
	if o.Hose != nil {
		socket = o.Hose.Socket
	}
	if socket == "" {
		return out
	}
	for _, id := range o.Tools {
		if t := c.idx.Tool(id); t != nil && t.Plug != "" {
			out = append(out, meeting{
				socket, t.Plug,
				[]job.ID{t.ID, o.ID},
				"the plug of " + c.named(t.ID) + " at " + c.named(o.ID),
				cure.Set(t.ID, "plug", socket),
			})
		}
	}
	return out
}

// wallSocket is the coupler row at the end of what hangs at the outlet.
func (c *Case) wallSocket(o *job.Outlet) string {
	if len(o.Hang) == 0 {
		return ""
	}
	last := &o.Hang[len(o.Hang)-1]
	if c.net.hung(last).Law.Name != "coupler" {
		return ""
	}
	return last.Item
}

func (c *Case) judgeMeeting(ctx context.Context, m meeting) error {
	socket, ok1 := c.shelf.Coupler(m.socket)
	plug, ok2 := c.shelf.Coupler(m.plug)
	if !ok1 || !ok2 {
		return nil // an unknown row is told by the model
	}
	answer, ref := c.shelf.Mates(m.socket, m.plug)
	f := job.Finding{Severity: job.Danger, Where: m.where, Source: []cite.Ref{ref}}
	switch answer {
	case "yes":
		return nil
	case "looks-like":
		f.Title = sentence("%s (%s) seems to fit a socket of %s, and may let go.", m.words, plug.Words, socket.Words)
		f.Why = "A plug that only looks alike is thrown out by the pressure, with the hose behind it."
	default:
		f.Title = sentence("%s (%s) does not mate with a socket of %s.", m.words, plug.Words, socket.Words)
	}
	if !socket.SocketOnly {
		cures, err := c.propose(ctx, "a plug of "+socket.Words+" in its place", m.mend)
		if err != nil {
			return err
		}
		f.Cures = cures
	}
	c.report(f)
	return nil
}

package check

import (
	"context"
	"strings"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

var blowGunUnlimited = Check{
	Code:   "blow-gun-unlimited",
	Title:  "blow guns limited at the nozzle",
	Why:    "Air from a blocked nozzle goes through skin: for cleaning it may stand at no more than 30 psi, with chip guarding.",
	Limit:  "30 psi (207 kPa) at the dead-ended nozzle, by a regulator or by a nozzle made for it",
	Source: []cite.Ref{{Source: "osha-1910.242", Place: "(b): reduced to less than 30 psi", How: cite.Read}},
	Run:    runBlowGunUnlimited,
}

// nozzleLimit is 30 psi, Pa.
const nozzleLimit = 30 * 6894.757293168361

func runBlowGunUnlimited(_ context.Context, c *Case) error {
	var where []job.ID
	worst := unit.GaugePressure(0)
	for _, p := range c.model.Pairs() {
		t := c.idx.Tool(p.Tool)
		if t == nil || !c.isBlowGun(t) || saysLimited(t.Note) {
			continue
		}
		top, ok := c.highestAt(p.Node)
		if !ok || top <= nozzleLimit {
			continue
		}
		worst = max(worst, top)
		if len(where) == 0 || where[len(where)-1] != p.Tool {
			where = append(where, p.Tool)
		}
	}
	where = unique(where)
	if len(where) == 0 {
		return nil
	}
	c.report(job.Finding{
		Severity: job.Caution, Where: where,
		Figure: figure("pressure_Pa_g", float64(worst)), Limit: figure("pressure_Pa_g", nozzleLimit),
		Title: sentence("%s can stand at %s with the nozzle blocked; the limit for cleaning is %s: fit a nozzle that limits it, and say so in the note of the tool.",
			c.names(where), c.gauge(worst), c.gauge(nozzleLimit)),
	})
	return nil
}

// isBlowGun tells an open nozzle that is not fed at a pressure of its own: a
// catalogue tool with a nozzle whose row refers to the rule, or one stated so.
func (c *Case) isBlowGun(t *job.Tool) bool {
	row, ok := c.shelf.Tool(t.Item)
	return ok && row.Nozzle > 0 && strings.Contains(row.Note, "1910.242")
}

// saysLimited: the tool's note says that its nozzle limits the pressure.
func saysLimited(note string) bool {
	n := strings.ToLower(note)
	for _, word := range []string{"limit", "30 psi", "relieving nozzle", "osha", "1910.242"} {
		if strings.Contains(n, word) {
			return true
		}
	}
	return false
}

func unique(ids []job.ID) []job.ID {
	seen := map[job.ID]bool{}
	out := ids[:0:0]
	for _, id := range ids {
		if !seen[id] {
			seen[id] = true
			out = append(out, id)
		}
	}
	return out
}

package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// kills is how often the program is killed here. Package store kills its writer a
// thousand times; here the whole program dies, with its server and its page's steps.
const (
	kills   = 25
	shortly = 5
)

// hand is one browser that edits one outlet: it counts up in the outlet's name.
type hand struct {
	outlet       string
	sent, acked  int // the newest counts sent and acknowledged
	ackedAt      int // the revision of the latter; 0 for none since the last kill
	base         int // what the browser has seen
	refused      string
	acknowledges *atomic.Int64
}

// work posts step after step until the program does not answer any more.
func (h *hand) work(p *program, id string) {
	for {
		count := h.sent + 1
		h.sent = count
		body := stepBody{Base: h.base, By: h.outlet, Step: named(h.outlet, fmt.Sprintf("count %d", count))}
		status, raw, err := p.send(http.MethodPost, of(id, "/steps"), body)
		if err != nil {
			return // killed
		}
		var a answer
		if err := json.Unmarshal(raw, &a); err != nil || status != http.StatusOK || !a.Saved {
			h.refused = fmt.Sprintf("count %d: %d, %v: %.300s", count, status, err, raw)
			return
		}
		h.acked, h.ackedAt, h.base = count, a.Revision, a.Revision
		h.acknowledges.Add(1)
	}
}

// TestKilledWhileEdited kills the program while two browsers edit one job, starts it
// again and finds every acknowledged step and a job that opens.
func TestKilledWhileEdited(t *testing.T) {
	most := kills
	if testing.Short() {
		most = shortly
	}
	p := newProgram(t)
	p.start(t)
	id := p.example(t)
	random := rand.New(rand.NewPCG(1, 2))
	var acknowledged atomic.Int64
	hands := []*hand{
		{outlet: "outlet.far-bench", acknowledges: &acknowledged},
		{outlet: "outlet.saw", acknowledges: &acknowledged},
	}
	unsaid := 0
	for n := range most {
		before := acknowledged.Load()
		var working sync.WaitGroup
		for _, h := range hands {
			working.Go(func() { h.work(p, id) })
		}
		// Killed among edits, however slow the machine is, but for one in six, which
		// is killed while it opens the job.
		if random.IntN(6) > 0 {
			for wanted := before + 1 + random.Int64N(12); acknowledged.Load() < wanted && hands[0].refused+hands[1].refused == ""; {
				time.Sleep(time.Millisecond)
			}
		}
		time.Sleep(time.Duration(random.IntN(30_000)) * time.Microsecond)
		_ = p.running.Process.Kill()
		working.Wait()
		p.kill()
		p.start(t)
		unsaid += checkHands(t, p, id, hands)
		if t.Failed() {
			t.Fatalf("after kill %d of %d: %s", n+1, most, p.told.String())
		}
	}
	t.Logf("%d kills, %d steps acknowledged; %d more were kept without anybody being told", most, acknowledged.Load(), unsaid)
	if acknowledged.Load() < int64(most) {
		t.Errorf("only %d steps were taken: the kills met nothing", acknowledged.Load())
	}
	checkWhole(t, p, id)
}

// checkHands holds that each hand's last acknowledged step stands in the history and
// in the document, and nothing that was never sent. It counts what was kept though
// nobody was told, and lets the hands go on from there.
func checkHands(t *testing.T, p *program, id string, hands []*hand) (unsaid int) {
	t.Helper()
	steps := p.history(t, id)
	for i, s := range steps {
		if s.Revision != i+1 {
			t.Errorf("step %d of the history is revision %d", i+1, s.Revision)
		}
	}
	for _, h := range hands {
		if h.refused != "" {
			t.Error(h.refused)
		}
		if h.ackedAt > len(steps) || h.ackedAt > 0 && steps[h.ackedAt-1].By != h.outlet {
			t.Errorf("%s: the step acknowledged as revision %d is not in the history", h.outlet, h.ackedAt)
			continue
		}
		stands := 0
		if text, ok := strings.CutPrefix(p.nameOf(t, id, h.outlet), "count "); ok {
			stands, _ = strconv.Atoi(text)
		}
		if stands < h.acked || stands > h.sent {
			t.Errorf("%s stands at %d: %d was acknowledged, %d sent", h.outlet, stands, h.acked, h.sent)
		}
		unsaid += stands - h.acked
		h.sent, h.acked, h.ackedAt, h.base = stands, stands, 0, len(steps)
	}
	return unsaid
}

// checkWhole takes all steps back after the last kill and finds the job as it was made.
func checkWhole(t *testing.T, p *program, id string) {
	t.Helper()
	fresh := p.file(t, p.example(t))
	ask[answer](t, p, http.MethodPost, of(id, "/goto"), map[string]any{"revision": 0, "by": "the test"})
	if got := p.file(t, id); got != fresh {
		t.Error("with all steps taken back the job is not what it was")
	}
	p.command(t, "", "check", id, "--json") // any command opens it too
}

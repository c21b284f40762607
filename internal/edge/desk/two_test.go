package desk

import (
	"errors"
	"fmt"
	"maps"
	"strconv"
	"sync"
	"testing"
	"time"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"

	"pgregory.net/rapid"
)

// two people work on one job, at one desk or at two that share a store, on
// whatever revision each of them has seen.
type two struct {
	t     *rapid.T
	desks [2]*Desk
	works [2]*Work
	// log tells for each revision who wrote which cell; "" where undo or redo did.
	log [][2]string
	// undo and redo hold the document and the cells before and after each step.
	undo, redo []state
	now        state
	at         []state // for each revision
	tools      int
}

type state struct {
	text  string
	cells map[string]string
}

func (p *two) look(w *Work) string {
	n, err := w.Now("")
	if err != nil {
		p.t.Fatal(err)
	}
	b, err := n.Study.Job().Encode()
	if err != nil {
		p.t.Fatal(err)
	}
	return string(b)
}

// edit is one edit on a stale base, which goes through exactly when nobody else
// has written the same.
func (p *two) edit(by string, w *Work) {
	base := rapid.IntRange(0, w.seen.Load().revision).Draw(p.t, "base")
	cell, value := "", ""
	var e job.Edit
	switch rapid.IntRange(0, 4).Draw(p.t, "what") {
	case 0:
		p.tools++
		e = tool(p.tools)
	case 1:
		e = set("line.drop-c", "size", rapid.SampledFrom([]string{`"1/2"`, `"3/4"`}).Draw(p.t, "size"))
		cell, e = "in the plan", job.WithinOf("plan.b", e)
	default:
		cell = rapid.SampledFrom([]string{"note", "title", "work.crew", "site.altitude_m"}).Draw(p.t, "cell")
		value = strconv.Itoa(rapid.IntRange(1, 9).Draw(p.t, "value"))
		if cell == "note" || cell == "title" {
			value = strconv.Quote(value)
		}
		e = set("", cell, value)
	}
	ask := asks(w, by, e)
	ask.Base = base
	done, err := w.Do(p.t.Context(), ask)
	certain, possible := false, false
	for _, s := range p.log[min(base, len(p.log)):] {
		certain = certain || s[0] != by && s[1] == cell && cell != ""
		possible = possible || s[0] != by && (s[1] == cell || s[1] == "")
	}
	var c *Conflict
	switch {
	case errors.As(err, &c):
		if !possible {
			p.t.Fatalf("%s writes %q on %d: %v\n%q", by, cell, base, err, p.log)
		}
		return
	case err != nil:
		p.t.Fatal(err)
	case certain:
		p.t.Fatalf("%s writes %q on %d over another's", by, cell, base)
	case done.Revision != len(p.log)+1 || !done.Saved:
		p.t.Fatalf("%+v after %d", done, len(p.log))
	}
	after := state{p.look(w), maps.Clone(p.now.cells)}
	if value != "" {
		after.cells[cell] = value
	}
	for cell, value := range after.cells {
		if got := read(p.t, after.text, cell); got != value {
			p.t.Fatalf("%s is %s, acknowledged was %s", cell, got, value)
		}
	}
	p.undo, p.redo = append(p.undo, p.now), nil
	p.now = after
	p.log, p.at = append(p.log, [2]string{by, cell}), append(p.at, p.now)
}

// goTo goes back to a revision.
func (p *two) goTo(by string, w *Work) {
	to := rapid.IntRange(0, len(p.at)-1).Draw(p.t, "to")
	p.desks[0].beat(true)
	p.desks[1].beat(true)
	_, err := w.GoTo(p.t.Context(), to, by, "")
	if to == len(p.at)-1 {
		if !errors.Is(err, ErrNoRevision) {
			p.t.Fatal(err)
		}
		return
	}
	if err != nil || p.look(w) != p.at[to].text {
		p.t.Fatalf("%v; it is\n%s\nit was\n%s", err, p.look(w), p.at[to].text)
	}
	p.undo, p.redo = append(p.undo, p.now), nil
	p.now = p.at[to]
	p.log, p.at = append(p.log, [2]string{by, ""}), append(p.at, p.now)
}

// step undoes or redoes, and the document is what it was.
func (p *two) step(by string, w *Work, back bool) {
	from, to, do, none := &p.undo, &p.redo, w.Undo, ErrNothingToUndo
	if !back {
		from, to, do, none = &p.redo, &p.undo, w.Redo, ErrNothingToRedo
	}
	// At the other desk it is not known yet that there is something.
	p.desks[0].beat(true)
	p.desks[1].beat(true)
	_, err := do(p.t.Context(), "", by, "")
	if len(*from) == 0 {
		if !errors.Is(err, none) {
			p.t.Fatal(err)
		}
		return
	}
	if err != nil {
		p.t.Fatal(err)
	}
	*to = append(*to, p.now)
	p.now = (*from)[len(*from)-1]
	*from = (*from)[:len(*from)-1]
	p.log, p.at = append(p.log, [2]string{by, ""}), append(p.at, p.now)
	if got := p.look(w); got != p.now.text {
		p.t.Fatalf("it is\n%s\nit was\n%s", got, p.now.text)
	}
}

// Random interleavings: no acknowledged edit is lost, all see the same, and undone
// to the start the job is the first one.
func TestTwoPeople(t *testing.T) {
	outer := t
	rapid.Check(t, func(t *rapid.T) {
		k := newMemory()
		p := &two{t: t}
		id := ""
		for i := range p.desks {
			d := deskOn(outer, k)
			if i == 0 {
				id = opened(outer, d, bench()).ID()
			}
			p.desks[i], p.works[i] = d, work(outer, d, id)
		}
		p.now = state{p.look(p.works[0]), map[string]string{}}
		p.at = []state{p.now}
		first := p.now.text
		for range rapid.IntRange(1, 25).Draw(t, "steps") {
			w := p.works[rapid.IntRange(0, 1).Draw(t, "desk")]
			by := rapid.SampledFrom([]string{"Mika", "Ida"}).Draw(t, "by")
			switch rapid.IntRange(0, 7).Draw(t, "do") {
			case 0, 1:
				p.step(by, w, true)
			case 2:
				p.step(by, w, false)
			case 3:
				p.goTo(by, w)
			default:
				p.edit(by, w)
			}
		}
		for i := range p.desks {
			p.desks[i].beat(true)
			again := work(outer, deskOn(outer, k), id)
			if p.look(p.works[i]) != p.now.text || p.look(again) != p.now.text || len(words(outer, again)) != len(p.log) {
				t.Fatalf("desk %d sees\n%s\nand should see\n%s", i, p.look(p.works[i]), p.now.text)
			}
		}
		for len(p.undo) > 0 {
			p.step("Mika", p.works[len(p.undo)%2], true)
		}
		if p.now.text != first {
			t.Fatal("undone to the start it is another job")
		}
	})
}

// read is the value of a key of a document's text.
func read(t *rapid.T, text, key string) string {
	j, bad := job.Parse([]byte(text))
	if bad != nil {
		t.Fatal(bad)
	}
	switch key {
	case "note":
		return strconv.Quote(j.Note)
	case "title":
		return strconv.Quote(j.Title)
	case "work.crew":
		return fmt.Sprint(j.Work.Crew)
	}
	return fmt.Sprint(float64(*j.Site.Altitude))
}

// Two desks of which now one, now the other cannot save: in the end all that was
// acknowledged is there for both, however it was saved.
func TestTwoDesksThatCannotSave(t *testing.T) {
	outer := t
	rapid.Check(t, func(t *rapid.T) {
		k := newMemory()
		var disks [2]*flaky
		var desks [2]*Desk
		var works [2]*Work
		id := ""
		for i := range desks {
			disks[i] = &flaky{memory: k}
			desks[i] = deskOn(outer, disks[i])
			if i == 0 {
				id = opened(outer, desks[0], bench()).ID()
			}
			works[i] = work(outer, desks[i], id)
		}
		made, highest := 0, [2]int{}
		for range rapid.IntRange(1, 30).Draw(t, "steps") {
			i := rapid.IntRange(0, 1).Draw(t, "desk")
			switch rapid.IntRange(0, 5).Draw(t, "do") {
			case 0:
				disks[i].breakWith(full())
			case 1:
				disks[i].breakWith(nil)
			case 2:
				desks[i].beat(true)
			default:
				made++
				ask := asks(works[i], fmt.Sprint(i), tool(made))
				if _, err := works[i].Do(t.Context(), ask); err != nil {
					t.Fatal(err)
				}
			}
			if r := works[i].seen.Load().revision; r < highest[i] {
				t.Fatalf("revision %d after %d", r, highest[i])
			} else {
				highest[i] = r
			}
		}
		for range 2 {
			for i := range desks {
				disks[i].breakWith(nil)
				desks[i].beat(true)
			}
		}
		want := text(outer, work(outer, deskOn(outer, k), id), "")
		for i, w := range works {
			n := now(outer, w, "")
			if text(outer, w, "") != want || !n.Saved || n.Trouble != "" || n.Revision != made || len(words(outer, w)) != made {
				t.Fatalf("desk %d: %+v, %d made", i, n, made)
			}
			for m := range made {
				if n.Study.Index().Tool(job.ID(fmt.Sprintf("tool.n-%d", m+1))) == nil {
					t.Fatalf("tool %d is lost", m+1)
				}
			}
		}
		for range made {
			if _, err := works[0].Undo(t.Context(), "", "0", ""); err != nil {
				t.Fatal(err)
			}
		}
		if text(outer, works[0], "") != written(outer, bench()) {
			t.Fatal("undone to the start it is another job")
		}
	})
}

// Many at once, while the background runs and others read.
func TestManyAtOnce(t *testing.T) {
	k := newMemory()
	var desks [2]*Desk
	for i := range desks {
		desks[i] = newDesk(Options{Shelf: catalog.Builtin()})
		desks[i].keep, desks[i].forever = k, ""
		go desks[i].run(time.NewTicker(beatEvery))
	}
	id := opened(t, desks[0], bench()).ID()
	var all sync.WaitGroup
	for person := range 4 {
		w := work(t, desks[person%2], id)
		all.Go(func() {
			for n := range 20 {
				ask := asks(w, fmt.Sprint(person), tool(100*person+n))
				ask.Base = 0
				if _, err := w.Do(t.Context(), ask); err != nil {
					t.Error(err)
				}
				if _, err := w.Now("plan.b"); err != nil {
					t.Error(err)
				}
				if _, err := w.History(t.Context(), 0, 3); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	for _, d := range desks {
		if err := d.Close(); err != nil {
			t.Error(err)
		}
	}
	w := work(t, deskOn(t, k), id)
	if n := now(t, w, ""); n.Revision != 80 || len(n.Study.Job().Tools) != 80+len(bench().Tools) {
		t.Errorf("revision %d, %d tools", n.Revision, len(n.Study.Job().Tools))
	}
}

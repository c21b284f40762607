package server

import (
	"container/list"
	"sync"

	"dropleg/internal/show/screen"
)

// mostDrawn is how many bytes of drawings are kept, by a rough count: a few
// revisions of what a few browsers look at.
const mostDrawn = 48 << 20

// drawn keeps drawings that browsers have, so that the next one can be told by what
// changed in it. What is not kept is told whole.
type drawn struct {
	mu    sync.Mutex
	at    map[drawnKey]*list.Element
	order list.List // the last used in front; of *drawing
	bytes int
}

// drawnKey names a drawing: of which job, for which question, at which revision.
type drawnKey struct {
	job, ask string
	revision int
}

// drawing is what a browser has. It is not changed any more.
type drawing struct {
	key   drawnKey
	page  *screen.Page
	bytes int
}

// get is a drawing, nil where it is not kept.
func (d *drawn) get(key drawnKey) *screen.Page {
	d.mu.Lock()
	defer d.mu.Unlock()
	e, ok := d.at[key]
	if !ok {
		return nil
	}
	d.order.MoveToFront(e)
	return e.Value.(*drawing).page
}

// put keeps a drawing and lets those go that were not used for longest.
func (d *drawn) put(key drawnKey, page *screen.Page) {
	n := &drawing{key, page, weigh(page)}
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.at == nil {
		d.at = map[drawnKey]*list.Element{}
	}
	if e, ok := d.at[key]; ok {
		d.drop(e)
	}
	d.at[key] = d.order.PushFront(n)
	d.bytes += n.bytes
	for d.bytes > mostDrawn && d.order.Len() > 1 {
		d.drop(d.order.Back())
	}
}

func (d *drawn) drop(e *list.Element) {
	n := d.order.Remove(e).(*drawing)
	delete(d.at, n.key)
	d.bytes -= n.bytes
}

// What the parts of a page take in memory, in bytes.
const (
	itemBytes  = 160 // an item and its shape
	pointBytes = 16
	thingBytes = 800  // a thing of the job, which its page keeps from being let go
	pageBytes  = 4096 // the rest
)

func weigh(page *screen.Page) int {
	sum, things := pageBytes, map[string]bool{}
	for _, l := range page.Scene.Layers {
		for i := range l.Items {
			it := &l.Items[i]
			sum += itemBytes + len(it.Title)
			if it.ID != "" {
				things[it.ID] = true
			}
			switch {
			case it.Line != nil:
				sum += pointBytes * len(it.Line.Points)
			case it.Area != nil:
				sum += pointBytes * len(it.Area.Points)
			case it.Text != nil:
				sum += len(it.Text.Text)
			case it.Mark != nil:
				for _, p := range it.Mark.Parts {
					sum += len(p.D) + itemBytes/2
				}
			}
		}
	}
	return sum + thingBytes*len(things)
}

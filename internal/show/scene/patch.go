package scene

import (
	"slices"
	"strconv"
)

// Patch is what makes one scene of another. Layers that did not change are not in it.
type Patch struct {
	Title  string       `json:"title"`
	Min    Point        `json:"min_m"`
	Max    Point        `json:"max_m"`
	Layers []LayerPatch `json:"layers"`

	whole, none bool
}

// LayerPatch is the change of one layer, by groups of items. A group's key is the id
// of its items, with "#2" behind where the id comes again; "#1", "#2" and so on are
// single items without an id.
type LayerPatch struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	// Order of the groups; nil: as before, without those gone.
	Order  []string          `json:"order,omitempty"`
	Groups map[string][]Item `json:"groups,omitempty"` // changed or new
	Gone   []string          `json:"gone,omitempty"`
}

// Whole says that the patch is a whole scene: it is not to be laid on another.
func (p Patch) Whole() bool { return p.whole }

// None says that nothing changed.
func (p Patch) None() bool { return p.none }

// Diff is what makes the new scene of the old one, in time that goes with their
// size. Where they do not have the same layers it is the whole new scene.
func Diff(old, new Scene) Patch {
	p := Patch{Title: new.Title, Min: new.Min, Max: new.Max, Layers: []LayerPatch{}}
	p.whole = !sameLayers(old.Layers, new.Layers)
	for i := range new.Layers {
		var was Layer
		if !p.whole {
			was = old.Layers[i]
		}
		d, changed := diffLayer(&was, &new.Layers[i])
		if changed || p.whole {
			p.Layers = append(p.Layers, d)
		}
	}
	p.none = !p.whole && len(p.Layers) == 0 && old.Title == new.Title && old.Min == new.Min && old.Max == new.Max
	return p
}

// sameLayers says whether two scenes have the same layers, each to be known by its id.
func sameLayers(old, new []Layer) bool {
	seen := map[string]bool{}
	for _, l := range new {
		if seen[l.ID] {
			return false
		}
		seen[l.ID] = true
	}
	return len(old) > 0 && slices.EqualFunc(old, new, func(a, b Layer) bool { return a.ID == b.ID })
}

// Apply lays a patch on the scene that it was made from. Of a whole patch that came
// over the wire, which does not say so, that is the empty scene.
func Apply(old Scene, p Patch) Scene {
	out := Scene{Title: p.Title, Min: p.Min, Max: p.Max}
	if !p.whole {
		out.Layers = slices.Clone(old.Layers)
	}
	for _, d := range p.Layers {
		at := -1
		if !p.whole {
			at = slices.IndexFunc(out.Layers, func(l Layer) bool { return l.ID == d.ID })
		}
		if at < 0 {
			out.Layers = append(out.Layers, applyLayer(&Layer{}, d))
			continue
		}
		out.Layers[at] = applyLayer(&out.Layers[at], d)
	}
	return out
}

// group is items that are painted together.
type group struct {
	key   string
	items []Item
}

// groups parts the items of a layer: those of one id that follow each other, and
// with a line the lines without an id that lie on it.
func groups(l *Layer) []group {
	out := make([]group, 0, len(l.Items))
	times := make(map[string]int, len(l.Items))
	taken := make(map[string]bool, len(l.Items))
	for i := 0; i < len(l.Items); {
		end := i + 1
		for ; end < len(l.Items) && joins(&l.Items[i], &l.Items[end-1], &l.Items[end]); end++ {
		}
		id := l.Items[i].ID
		times[id]++
		key := keyOf(id, times[id])
		for taken[key] { // an id that looks like a key
			times[id]++
			key = keyOf(id, times[id])
		}
		taken[key] = true
		out = append(out, group{key, l.Items[i:end:end]})
		i = end
	}
	return out
}

func keyOf(id string, n int) string {
	if id != "" && n == 1 {
		return id
	}
	return id + "#" + strconv.Itoa(n)
}

// joins says whether an item belongs to the group of the one at its head.
func joins(head, before, it *Item) bool {
	if head.ID == "" {
		return false
	}
	return it.ID == head.ID || it.ID == "" && it.Line != nil && before.Line != nil && slices.Equal(it.Line.Points, before.Line.Points)
}

// diffLayer compares two layers by their groups.
func diffLayer(old, new *Layer) (d LayerPatch, changed bool) {
	d = LayerPatch{ID: new.ID, Title: new.Title}
	was, now := groups(old), groups(new)
	at := make(map[string]int, len(was))
	for i := range was {
		at[was[i].key] = i
	}
	kept := make([]bool, len(was))
	last, inOrder := -1, true
	for _, g := range now {
		i, ok := at[g.key]
		if !ok || i < last {
			inOrder = false
		}
		if ok {
			kept[i], last = true, i
		}
		if !ok || !slices.EqualFunc(was[i].items, g.items, equal) {
			if d.Groups == nil {
				d.Groups = map[string][]Item{}
			}
			d.Groups[g.key] = g.items
		}
	}
	for i := range was {
		if !kept[i] {
			d.Gone = append(d.Gone, was[i].key)
		}
	}
	if !inOrder {
		d.Order = make([]string, len(now))
		for i := range now {
			d.Order[i] = now[i].key
		}
	}
	return d, d.Groups != nil || d.Gone != nil || !inOrder || old.Title != new.Title
}

func applyLayer(old *Layer, d LayerPatch) Layer {
	known := map[string][]Item{}
	order := d.Order
	for _, g := range groups(old) {
		known[g.key] = g.items
		if d.Order == nil && !slices.Contains(d.Gone, g.key) {
			order = append(order, g.key)
		}
	}
	for key, items := range d.Groups {
		known[key] = items
	}
	out := Layer{ID: d.ID, Title: d.Title, Items: []Item{}}
	for _, key := range order {
		out.Items = append(out.Items, known[key]...)
	}
	return out
}

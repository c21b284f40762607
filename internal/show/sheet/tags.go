package sheet

import (
	"fmt"
	"net/url"

	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
)

// outletLabels say which outlet it is, and lead to it by their code.
func (m *Maker) outletLabels() (page.Shelf, error) {
	var shelf page.Shelf
	for i := range m.job.Outlets {
		o := &m.job.Outlets[i]
		lines := []string{o.Name}
		if p := m.pressureWords(); p != "" {
			lines = append(lines, "compressed air, up to "+p)
		}
		lines = append(lines, m.outletHose(o))
		ch, err := tag(68, 30, m.mark(o.ID), lines, m.link(string(o.ID), url.Values{"at": {string(o.ID)}}))
		if err != nil {
			return nil, err
		}
		shelf = append(shelf, ch)
	}
	return shelf, nil
}

func (m *Maker) outletHose(o *job.Outlet) string {
	for _, h := range o.Hang {
		if h.Item != "" {
			return h.Item
		}
	}
	return ""
}

// jointLabels are small tags with the numbers of the joints that are to be made.
func (m *Maker) jointLabels(take *parts.Answer) (page.Shelf, error) {
	var shelf page.Shelf
	for i := range take.Joints {
		k := &take.Joints[i]
		if k.State != parts.Planned {
			continue
		}
		ch, err := tag(43, 19, fmt.Sprint(k.Number), []string{k.Words, parts.SizeWords(k.Size)}, m.link(k.ID, url.Values{"q": {"prove"}, "joint": {k.ID}}))
		if err != nil {
			return nil, err
		}
		shelf = append(shelf, ch)
	}
	return shelf, nil
}

// link is what a code says: where a phone's own camera opens the thing, or, where nobody
// told the address of the job's page, the thing's id.
func (m *Maker) link(id string, opens url.Values) string {
	if m.options.Page == "" {
		return "dropleg:" + id
	}
	return m.options.Page + "#" + opens.Encode()
}

// tag is a label of a size in mm: a large mark, words, and a code.
func tag(wide, high float64, mark string, lines []string, link string) (page.Chart, error) {
	code, err := QR(link)
	if err != nil {
		return page.Chart{}, err
	}
	s := scene.Scene{Title: mark, Max: scene.Point{wide, high}}
	edge := scene.Stroke{Width: 0.15, Color: "soft", Dash: []float64{1, 1}}
	items := []scene.Item{
		{Area: &scene.Area{Points: rectangle(0, 0, wide, high), Stroke: &edge}},
		{Title: link, Mark: &scene.Mark{At: scene.Point{}, Parts: []scene.Path{squares(code, wide-high+0.3, 0.3, high-0.6)}}},
	}
	room := wide - high - 2
	size := min(high*0.42, room/max(scene.PrintWidth(mark, 1, true), 0.1))
	it := scene.Words("", mark, scene.Point{2, high - size*0.95}, scene.Point{}, size, "start", "ink")
	it.Text.Bold = true
	items = append(items, it)
	y := high - size*1.05
	const least = 2.0
	for _, line := range lines {
		for _, part := range page.Wrap(line, room, max(high*0.09, least)) {
			if y -= max(high*0.09, least) * 1.25; y < 0.8 || part == "" {
				break
			}
			items = append(items, scene.Words("", part, scene.Point{2, y}, scene.Point{}, max(high*0.09, least), "start", "ink"))
		}
	}
	s.Layers = []scene.Layer{{ID: "label", Title: "label", Items: items}}
	return page.Chart{Scene: s, Scale: 1}, nil
}

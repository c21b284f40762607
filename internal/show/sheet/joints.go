package sheet

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/page"
)

func jointsSheet() Sheet {
	return Sheet{
		Name: "joints", Title: "Where every joint is", Audience: "who builds it and who tests it", Needs: "two things that are joined",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			take, err := m.take(ctx)
			if err != nil || len(take.Joints) == 0 {
				return nil, err
			}
			return []page.Block{
				page.Paragraph("Numbers go from the plant outwards, as on walls and isometric. Heights are over the floor. Tick a joint when it is made, and again when it has been found tight."),
				m.jointTable(take),
			}, nil
		},
	}
}

func (m *Maker) jointTable(take *parts.Answer) page.Table {
	t := page.Table{Size: 2.5, Columns: []page.Head{
		{Words: "no.", Right: true}, {Words: "way of joining"}, {Words: "size"}, {Words: "between"}, {Words: "where", Wide: true}, {Words: "needs"}, {Words: "made"}, {Words: "tight"},
	}}
	room := job.ID("none")
	for i := range take.Joints {
		k := &take.Joints[i]
		if k.Room != room {
			room = k.Room
			t.Rows = append(t.Rows, page.Row{Group: true, Cells: []string{m.roomName(room)}})
		}
		words := k.Words
		if k.State != parts.Planned {
			words += ", " + string(k.State)
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{
			strconv.Itoa(k.Number), words, k.Size, m.shop.NamedWithin(k.Sides[0].Thing) + " – " + m.shop.NamedWithin(k.Sides[1].Thing), m.whereOf(k), m.needs(k), "□", "□",
		}})
	}
	return t
}

func (m *Maker) roomName(id job.ID) string {
	if r := m.index.Room(id); r != nil {
		return or(r.Name, "A room")
	}
	return "Outside all rooms"
}

// whereOf is where a joint is: by its wall where it is near one, and how high.
func (m *Maker) whereOf(k *parts.Joint) string {
	if k.At == nil {
		return "not drawn"
	}
	floor := 0.0
	if r := m.index.RoomAt(*k.At); r != nil {
		floor = float64(r.Floor)
	}
	high := m.height(k.At[2]-floor) + " up"
	const near = 0.3 // m
	for i := range m.job.Building.Walls {
		w := &m.job.Building.Walls[i]
		along, _, off := w.Frame().In(*k.At)
		if off > -near && off < near && along > -0.05 && along < w.Frame().Length()+0.05 {
			return or(w.Name, "wall") + ", " + m.height(along) + " along, " + high
		}
	}
	return high
}

func (m *Maker) needs(k *parts.Joint) string {
	var needs []string
	if k.Needs.Thread != "" {
		kind, size, _ := strings.Cut(k.Needs.Thread, " ")
		needs = append(needs, strings.TrimSpace(strings.ToUpper(kind)+" "+size))
	}
	if k.Needs.Turns > 0 {
		needs = append(needs, fmt.Sprintf("%.3g turns past hand tight", k.Needs.Turns))
	}
	if k.Needs.Mark > 0 {
		needs = append(needs, "mark at "+m.marked(k.Needs.Mark))
	}
	if k.Problem != "" {
		needs = append(needs, k.Problem)
	}
	return strings.Join(needs, "; ")
}

package find

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// columns are those of a table of readings. Only the first is always needed.
var columns = []string{"place", "tool", "running", "pressure", "receiver", "stopped", "from", "to", "time", "starts", "shut", "found"}

// ReadCSV reads a table of readings with the columns place, tool (where the
// gauge sits between hose and that tool), running (TOOL@OUTLET, parted by
// semicolons), pressure, receiver, stopped (yes where the compressor was); for timings
// from, to, time and the valves that were shut; or starts in an hour; or a place with what
// a look at it found. Figures carry their units, rows stand as time went. All problems are
// told at once.
func ReadCSV(text io.Reader, j *job.Job) ([]Reading, []document.Problem) {
	rows := tableOf(text)
	head, err := rows.Read()
	if err != nil {
		return nil, []document.Problem{{Line: 1, Read: "no table", Want: "a head with " + strings.Join(columns, ", ")}}
	}
	t := &table{j: j}
	for _, name := range head {
		name = strings.ToLower(strings.TrimSpace(name))
		t.head = append(t.head, name)
		if near := unit.Nearest(name, columns); near != name {
			t.problem(1, name, name, "one of the columns "+strings.Join(columns, ", "), near)
		}
	}
	if len(t.problems) > 0 {
		return nil, t.problems
	}
	var all []Reading
	for {
		cells, err := rows.Read()
		if errors.Is(err, io.EOF) {
			return all, t.problems
		}
		line := lineOf(rows, err)
		if err != nil {
			t.problem(line, "", "", "a row of a table in CSV", "")
			return all, t.problems
		}
		all = append(all, t.row(line, cells))
	}
}

// tableOf reads a table as spreadsheets write it: with a mark of its encoding before it or none,
// and with semicolons between cells where the head has them. Lines that begin with # are left out.
func tableOf(text io.Reader) *csv.Reader {
	lines := bufio.NewReader(text)
	const mark = "\ufeff"
	if begin, _ := lines.Peek(len(mark)); string(begin) == mark {
		_, _ = lines.Discard(len(mark)) // peeked at just now
	}
	begin, _ := lines.Peek(lines.Size())
	head, _, _ := bytes.Cut(begin, []byte("\n"))
	rows := csv.NewReader(lines)
	rows.FieldsPerRecord, rows.TrimLeadingSpace, rows.Comment = -1, true, '#'
	if bytes.Count(head, []byte(";")) > bytes.Count(head, []byte(",")) {
		rows.Comma = ';'
	}
	return rows
}

// lineOf is where the row read last began.
func lineOf(rows *csv.Reader, err error) int {
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		return bad.StartLine
	}
	if err != nil {
		return 0
	}
	line, _ := rows.FieldPos(0)
	return line
}

// table is a table of readings while it is read.
type table struct {
	j        *job.Job
	head     []string
	problems []document.Problem
}

func (t *table) problem(line int, path, read, want, near string) {
	p := document.Problem{Line: line, Path: path, Want: want, Nearest: near}
	if read != "" {
		p.Read = fmt.Sprintf("%q", read)
	}
	t.problems = append(t.problems, p)
}

// told says whether a problem with that cell is told already.
func (t *table) told(line int, path string) bool {
	return slices.ContainsFunc(t.problems, func(p document.Problem) bool { return p.Line == line && p.Path == path })
}

func (t *table) row(line int, cells []string) Reading {
	if look := t.cell(cells, "found"); look != "" {
		return t.look(line, cells, look)
	}
	r, off := Reading{Kind: Pressure}, false
	for i, cell := range cells {
		if cell = strings.TrimSpace(cell); cell == "" || i >= len(t.head) {
			continue
		}
		switch t.head[i] {
		case "place":
			r.Place.At = t.thing(line, "place", cell, "outlet", "point")
		case "tool":
			r.Place.Tool = t.thing(line, "tool", cell, "tool")
		case "running":
			r.Running = t.running(line, cell)
		case "pressure":
			r.Pressure = unit.GaugePressure(t.figure(line, "pressure", cell, unit.KindGauge))
		case "receiver":
			r.Receiver = unit.GaugePressure(t.figure(line, "receiver", cell, unit.KindGauge))
		case "from":
			r.From = unit.GaugePressure(t.figure(line, "from", cell, unit.KindGauge))
		case "to":
			r.To = unit.GaugePressure(t.figure(line, "to", cell, unit.KindGauge))
		case "shut":
			for word := range wordsIn(cell) {
				r.Shut = append(r.Shut, t.thing(line, "shut", word, "point", "part"))
			}
		case "stopped":
			off = t.yes(line, "stopped", cell)
		case "starts":
			r.Kind, r.Starts = Starts, t.count(line, cell)
		case "time":
			r.Time = unit.Duration(t.figure(line, "time", cell, unit.KindDuration))
		}
	}
	switch {
	case r.Kind == Starts:
	case r.Time > 0 && r.To > r.From:
		r.Kind = PumpUp
	case r.Time > 0:
		r.Kind = Fall
	case r.Receiver == 0 && !t.told(line, "receiver"):
		t.problem(line, "receiver", "", "the receiver's pressure at the same moment: without it nobody knows how much was lost on the way", "")
	}
	r.Stopped = off && r.Kind == Pressure
	return r
}

// wordsIn are the words of a cell that semicolons part; one too many of those is none.
func wordsIn(cell string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for word := range strings.SplitSeq(cell, ";") {
			if word = strings.TrimSpace(word); word != "" && !yield(word) {
				return
			}
		}
	}
}

// cell is that of a column in a row; "" where there is none.
func (t *table) cell(cells []string, column string) string {
	if i := slices.Index(t.head, column); i >= 0 && i < len(cells) {
		return strings.TrimSpace(cells[i])
	}
	return ""
}

// look reads a row that says what a look at a thing showed.
func (t *table) look(line int, cells []string, found string) Reading {
	r := Reading{Kind: Look, Found: Found(strings.ToLower(found))}
	if r.Found != Mended && r.Found != Replaced && r.Found != Sound {
		t.problem(line, "found", found, "mended, replaced or sound", unit.Nearest(found, []string{string(Mended), string(Replaced), string(Sound)}))
	}
	of := "place"
	if t.cell(cells, "tool") != "" {
		of = "tool"
	}
	for _, column := range columns {
		if cell := t.cell(cells, column); cell != "" && column != of && column != "found" {
			t.problem(line, column, cell, "nothing beside "+of+" and found: what was read is a row of its own", "")
		}
	}
	switch thing := t.cell(cells, of); {
	case thing == "":
		t.problem(line, of, "", "the thing that was looked at", "")
	case of == "tool":
		r.Thing = t.thing(line, of, thing, "tool")
	default:
		r.Thing = t.thing(line, of, thing, "point", "outlet", "line", "part", "hose")
	}
	return r
}

func (t *table) yes(line int, column, cell string) bool {
	word := strings.ToLower(cell)
	if word != "yes" && word != "no" {
		t.problem(line, column, cell, "yes or no", "")
	}
	return word == "yes"
}

func (t *table) figure(line int, column, cell string, k unit.Kind) float64 {
	if strings.Trim(cell, "0123456789., ") == "" {
		t.problem(line, column, cell, "a figure with its unit: "+cell+" psi, "+cell+" bar or "+cell+" kPa?", "")
		return 0
	}
	x, err := unit.Parse(cell, k, unit.Env{})
	if err != nil {
		t.problem(line, column, cell, err.Error(), "")
	}
	return x
}

// count reads how often the compressor starts in an hour.
func (t *table) count(line int, cell string) float64 {
	n, err := strconv.ParseFloat(cell, 64)
	if err != nil || !(n > 0) || n > mostStarts {
		t.problem(line, "starts", cell, "how often it starts in an hour: a number above 0, at most 600", "")
		return 1
	}
	return n
}

// isTool says whether a word names a tool.
func (t *table) isTool(word string) bool {
	as := &table{j: t.j}
	return as.thing(0, "", word, "tool") != ""
}

// running reads TOOL@OUTLET, or "tool at outlet"; TOOL alone is at its first outlet.
func (t *table) running(line int, cell string) []job.InUse {
	var out []job.InUse
	for word := range wordsIn(cell) {
		tool, outlet, at := strings.Cut(word, "@")
		if before, after, spoken := strings.Cut(tool, " at "); spoken && !at && t.isTool(before) {
			tool, outlet, at = before, after, true
		}
		use := job.InUse{Tool: t.thing(line, "running", strings.TrimSpace(tool), "tool")}
		if at {
			outlet = strings.TrimSpace(outlet)
			use.Outlet = t.thing(line, "running", outlet, "outlet")
		} else {
			use.Outlet = firstOutlet(t.j, use.Tool)
		}
		out = append(out, use)
	}
	return out
}

// firstOutlet is the first at which a tool is used; "" for none.
func firstOutlet(j *job.Job, tool job.ID) job.ID {
	for i := range j.Outlets {
		for _, id := range j.Outlets[i].Tools {
			if id == tool {
				return j.Outlets[i].ID
			}
		}
	}
	return ""
}

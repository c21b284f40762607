package job

import "fmt"

// Connect leads one end of a run to a point and port: the edit "connect".
type Connect struct {
	named
	Run   ID     `json:"run"`
	End   string `json:"end" enum:"from,to"`
	Point ID     `json:"point"`
	Port  string `json:"port,omitempty"`
}

// Apply connects the end.
func (e *Connect) Apply(j *Job) (*Job, Edit, error) { return apply(e, j) }

func (e *Connect) verb() string { return "connect" }

func (e *Connect) do(d *draft) (Edit, error) {
	r, ok := d.thing(e.Run).(*Run)
	if !ok {
		return nil, d.unknownThing("run", e.Run, "line")
	}
	was := r.From
	switch e.End {
	case "from":
	case "to":
		was = r.To
	default:
		return nil, refuse("unknown-word", "end", fmt.Sprintf("%q", brief(e.End)), "one of from, to", "")
	}
	_, err := d.change(e.Run, []string{e.End}, func(t any) error {
		end := End{Point: e.Point, Port: e.Port}
		if r := t.(*Run); e.End == "from" {
			r.From = end
		} else {
			r.To = end
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return &Connect{Run: e.Run, End: e.End, Point: was.Point, Port: was.Port}, nil
}

// Words tells what is led where.
func (e *Connect) Words(before *Job) string {
	return fmt.Sprintf("led the %s end of %s to %s", e.End, nameOf(before, e.Run), nameOf(before, e.Point))
}

// Form writes the edit.
func (e *Connect) Form() EditForm {
	return form("connect", Connect{Run: e.Run, End: e.End, Point: e.Point, Port: e.Port})
}

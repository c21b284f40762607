package cli

import (
	"encoding/json"
	"fmt"
	"time"

	"dropleg/internal/answer/demand"
)

// A bare instance is one question without a shop around it, for scripts and outside
// checks: it is known by its keys, and its answer has the keys of such files.

// bareLimit is how long an instance is worked on where nobody says: what is proven in
// that time is nearly all that ever is, and memory is not filled.
const bareLimit = 30 * time.Second

// topKeys are the keys at the top of a JSON document; nil where it is none.
func topKeys(data []byte) map[string]json.RawMessage {
	var keys map[string]json.RawMessage
	if json.Unmarshal(data, &keys) != nil {
		return nil
	}
	return keys
}

// bare reads a file that is a bare instance with the keys given, into one; ok is false
// where it is something else, a job.
func (c *call) bare(word string, into any, keys ...string) (name string, ok bool, err error) {
	name, data, err := c.read(word)
	if err != nil {
		return name, false, err
	}
	have := topKeys(data)
	if _, job := have["dropleg"]; job {
		return name, false, nil
	}
	for _, k := range keys {
		if _, there := have[k]; !there {
			return name, false, nil
		}
	}
	if err := json.Unmarshal(data, into); err != nil {
		return name, true, unusable(name, err.Error(), fmt.Sprintf("an instance with the keys %v, as numbers and names", keys))
	}
	return name, true, nil
}

// isFile says whether a word is a file and not standard input or a stored job: only a file
// is looked at twice.
func isFile(word string) bool {
	if word == "-" {
		return false
	}
	_, err := readFile(word)
	return err == nil
}

// bareDemand is independent tools, each on for a share of the time.
type bareDemand struct {
	Title string `json:"title"`
	Crew  int    `json:"crew"`
	Tools []struct {
		Flow  float64 `json:"flow_L_min"`
		Share float64 `json:"share"`
	} `json:"tools"`
}

// bareLevels are the shares of the time that are told.
var bareLevels = []float64{0.5, 0.9, 0.95, 0.99, 0.999}

const mostBareFlow = 1e6 // L/min of all tools: the grid is of 1 L/min

// demandOf answers a bare demand; ok is false where the file is none.
func (c *call) demandOf(word string) (ok bool, err error) {
	if !isFile(word) {
		return false, nil
	}
	var q bareDemand
	name, ok, err := c.bare(word, &q, "tools")
	if !ok || err != nil {
		return ok, err
	}
	var all []demand.Part
	sum := 0.0
	for i, t := range q.Tools {
		if !(t.Flow >= 0 && t.Flow <= mostBareFlow) || !(t.Share >= 0 && t.Share <= 1) {
			return true, unusable(name, fmt.Sprintf("tools[%d]: flow_L_min %g, share %g", i, t.Flow, t.Share), "a flow of 0 or more and a share of 0 to 1")
		}
		if sum += t.Flow; sum > mostBareFlow {
			return true, unusable(name, "more than a million L/min altogether", "less: the distribution is told on a grid of 1 L/min")
		}
		all = append(all, demand.Solo(t.Share, t.Flow))
	}
	f := demand.FlowsOf(all, 1, q.Crew)
	levels := map[string]float64{}
	for _, l := range bareLevels {
		levels[fmt.Sprintf("%g", l)] = f.Level(l)
	}
	return true, c.writeJSON(map[string]any{"title": q.Title, "mean_L_min": f.Mean(), "sd_L_min": f.SD(), "percentile_L_min": levels, "within_L_min": f.Within})
}

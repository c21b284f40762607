package page_test

import (
	"strings"
	"testing"

	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
)

// lowest is how near words and lines of a leaf's tables come to the title block, mm over it; the
// leaf's own block is above nothing that is lower.
func lowest(leaf scene.Leaf) float64 {
	const block = 25 // from the paper's edge to the upper edge of the title block
	low := 1e9
	for _, d := range leaf.Laid {
		for _, l := range d.Scene.Layers {
			for _, it := range l.Items {
				if it.Text != nil && strings.HasPrefix(it.Text.Text, "row") {
					low = min(low, it.Text.At[1]-block)
				}
			}
		}
	}
	return low
}

// A table begins where its heads and its first row have room, wherever it stands, and one that is
// to be signed is not shared among leaves.
func TestTableOverLeaves(t *testing.T) {
	for before := range 60 {
		var blocks []page.Block
		for range before {
			blocks = append(blocks, page.Paragraph("a line"))
		}
		plain := page.Table{Columns: []page.Head{{Words: "head"}}, Rows: []page.Row{{Cells: []string{"row 1"}}, {Cells: []string{"row 2"}}}}
		for _, leaf := range page.Compose([]page.Document{{Title: "t", Blocks: append(blocks, plain)}}, stampOn("a4", false)) {
			words := allTexts([]scene.Leaf{leaf})
			if strings.Contains(words, "row") != strings.Contains(words, "head\n") || lowest(leaf) < 0 {
				t.Errorf("%d lines before: heads and rows apart, or %.1f mm over the title block", before, lowest(leaf))
			}
		}
		whole := plain
		whole.Whole, whole.Least = true, 14
		for _, leaf := range page.Compose([]page.Document{{Title: "t", Blocks: append(blocks, whole)}}, stampOn("a4", false)) {
			if words := allTexts([]scene.Leaf{leaf}); strings.Contains(words, "row 1") != strings.Contains(words, "row 2") || lowest(leaf) < 0 {
				t.Errorf("%d lines before: a table to be signed is torn apart", before)
			}
		}
	}
}

// In the title block a name that is too long is cut with a sign, and nothing stands over its edge.
func TestLongNamesInTitleBlock(t *testing.T) {
	stamp := stampOn("a4", false)
	stamp.Job, stamp.By = strings.Repeat("Frame garage of the lower street ", 12), strings.Repeat("Harbour Pipework ", 9)
	leaf := page.Compose([]page.Document{{Title: "A sheet with a long title too, by and large", Blocks: []page.Block{page.Paragraph("a line")}}}, stamp)[0]
	words := allTexts([]scene.Leaf{leaf})
	if strings.Count(words, "…") != 2 {
		t.Errorf("no sign for what is left out:\n%s", words)
	}
	for _, d := range leaf.Laid {
		for _, l := range d.Scene.Layers {
			for _, it := range l.Items {
				if it.Text != nil && it.Text.At[1] < 8.5 {
					t.Errorf("%q stands at %.1f mm, on the frame", it.Text.Text, it.Text.At[1])
				}
			}
		}
	}
}

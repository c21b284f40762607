package screen

import (
	"context"
	"errors"
	"testing"
)

// Every view that the head lists can be drawn and says what it shows; others, and
// rooms that are not there, are told.
func TestViews(t *testing.T) {
	shop := joinery(t)
	head, err := shop.Head(context.Background(), Ask{})
	if err != nil {
		t.Fatal(err)
	}
	if len(head.Views) != 4 || head.Views[0].ID != "plan" {
		t.Fatalf("views %v", head.Views)
	}
	for _, v := range head.Views {
		drawn, err := shop.View(context.Background(), Ask{}, v.ID, "", 250, 130)
		if err != nil {
			t.Fatal(err)
		}
		if len(drawn.Scene.Layers) == 0 || len(drawn.Legend) == 0 || len(drawn.Frames) == 0 || drawn.Sentence == "" || v.Words == "" {
			t.Errorf("%s: %d layers, %d bands, %d frames, %q", v.ID, len(drawn.Scene.Layers), len(drawn.Legend), len(drawn.Frames), drawn.Sentence)
		}
	}
	one, err := shop.View(context.Background(), Ask{}, "elevation", "room.spray", 250, 130)
	if err != nil || one.Frames[0].Room != "room.spray" {
		t.Errorf("%v, %v", one.Frames, err)
	}
	var missing *NotThere
	if _, err := shop.View(context.Background(), Ask{}, "mirror", "", 250, 130); !errors.As(err, &missing) || missing.ID != "mirror" {
		t.Errorf("an unknown view: %v", err)
	}
	if _, err := shop.View(context.Background(), Ask{}, "elevation", "room.none", 250, 130); !errors.As(err, &missing) || missing.ID != "room.none" {
		t.Errorf("an unknown room: %v", err)
	}
}

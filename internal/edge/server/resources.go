package server

import (
	"dropleg/internal/decide/extend"
	"dropleg/internal/shop/job"
)

//go:generate go run dropleg/dev/gen

// Resources lists a value of every body that the API takes or sends, for the
// generator of the page's types.
func Resources() []any {
	return append(answered(), []any{
		Jobs{},
		Create{},
		Created{},
		Making{},
		Start{},
		Job{},
		Live{},
		StepBody{},
		ByBody{},
		GoToBody{},
		AdoptBody{},
		History{},
		Compare{},
		ProposeBody{},
		extend.Wish{},
		Proposed{},
		Calibrated{},
		CalibrateBody{},
		Plan{},
		Event{},
		Fault{},
		Quantity{},
		Catalogue{},
		Pictures{},
		Sheets{},
		SheetLeaf{},
		Share{},
		Enter{},
	}...)
}

// answered are the bodies that tell of a job what was worked out, and what they are asked with.
func answered() []any {
	return []any{
		Outlets{},
		Way{},
		Thing{},
		Typed{},
		Questions{},
		Findings{},
		Purchase{},
		Quote{},
		PriceListBody{},
		PriceList{},
		PricesBody{},
		Days{},
		Hour{},
		Water{},
		Hold{},
		Weak{},
		Cost{},
		Build{},
		Prove{},
		Keep{},
		Decay{},
		RecordsBody{},
		Recorded{},
	}
}

// Things lists the things of a job as they stand in its file: what ScreenPiece.thing is.
func Things() []any {
	return []any{
		job.Zone{},
		job.Room{},
		job.Wall{},
		job.Opening{},
		job.Obstacle{},
		job.Underlay{},
		job.Point{},
		job.Run{},
		job.Outlet{},
		job.Tool{},
		job.Set{},
		job.Offer{},
		job.Plan{},
		job.Record{},
		job.Site{},
		job.Rules{},
		job.Work{},
		job.Prices{},
	}
}

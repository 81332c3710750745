package search

// Plan is what a run is going to do. With a rig and the program's version it
// fixes every row; neither the number of cores nor the clock enters.
type Plan struct {
	Seed        uint64 `json:"seed"`
	Evaluations int    `json:"evaluations"` // ceiling over all stages
	Islands     int    `json:"islands"`
	Epochs      int    `json:"epochs"`
}

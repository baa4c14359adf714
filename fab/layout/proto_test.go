package layout

import (
	"encoding/json"
	"fmt"
	"os"
	"strconv"
	"testing"
	"time"
)

type inst struct {
	Name  string
	Sheet [2]int32
	Items [][3]int32
	BF    int `json:"bound_fixed"`
	BT    int `json:"bound_turned"`
	Group string
}

func TestProto(t *testing.T) {
	data, err := os.ReadFile(os.Getenv("STABILE_CUTTING_SET"))
	if err != nil {
		t.Skip()
	}
	var set struct{ Instances []inst }
	if err := json.Unmarshal(data, &set); err != nil {
		t.Fatal(err)
	}
	every, _ := strconv.Atoi(os.Getenv("EVERY"))
	off, _ := strconv.Atoi(os.Getenv("OFF"))
	steps, _ := strconv.ParseInt(os.Getenv("STEPS"), 10, 64)
	turn := os.Getenv("FIXED") == ""
	total, bound := 0, 0
	var all int64
	byClass := map[string][2]int{}
	start := time.Now()
	for i, in := range set.Instances {
		if i%every != off {
			continue
		}
		p := &Problem{Sheets: []Sheet{{Width: float64(in.Sheet[0]), Height: float64(in.Sheet[1])}}}
		for _, it := range in.Items {
			p.Pieces = append(p.Pieces, Piece{float64(it[0]), float64(it[1]), int(it[2]), turn})
		}
		list := stocks(p)
		rr, _ := rects(p, list)
		s := newSearch(rr, list)
		lb := in.BT
		if !turn {
			lb = in.BF
		}
		v := s.fewest((float64(lb) + .5), steps)
		all += s.steps
		total += len(v.boards)
		bound += lb
		c := byClass[in.Name[:4]]
		byClass[in.Name[:4]] = [2]int{c[0] + len(v.boards), c[1] + lb}
	}
	for c := 1; c <= 10; c++ {
		fmt.Print(byClass[fmt.Sprintf("cl%02d", c)], " ")
	}
	d := time.Since(start)
	fmt.Printf("\ntotal %d bound %d time %v steps/s %.1fM\n", total, bound, d, float64(all)/d.Seconds()/1e6)
}

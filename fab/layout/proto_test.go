package layout

import (
	"encoding/json"
	"fmt"
	"math"
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
	if s := os.Getenv("TUNE"); s != "" {
		if err := json.Unmarshal([]byte(s), &Tune); err != nil {
			t.Fatal(err)
		}
	}
	total, bound := 0, 0
	var all int64
	byClass := map[string][2]int{}
	start := time.Now()
	for i, in := range set.Instances {
		if i%every != off {
			continue
		}
		s := &search{stocks: []stock{{w: in.Sheet[0], h: in.Sheet[1], area: int64(in.Sheet[0]) * int64(in.Sheet[1]), cost: 1, count: math.MaxInt, shear: math.MaxInt32}}, used: make([]int, 1)}
		for _, it := range in.Items {
			for range it[2] {
				s.rects = append(s.rects, rect{it[0], it[1], int64(it[0]) * int64(it[1]), turn && it[0] != it[1], 0})
			}
		}
		lb := in.BT
		if !turn {
			lb = in.BF
		}
		v := s.run(float64(lb), steps)
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

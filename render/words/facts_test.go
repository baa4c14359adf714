package words

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/assembly"
	"stabile/fab/calculation"
	"stabile/fab/check"
	"stabile/fab/estimate"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/rolling"
	"stabile/fab/saw"
	"stabile/fab/sheets"
	"stabile/fab/shop"
	"stabile/fab/stand"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/quantity"
)

// known is a zero value of every fact that has words here.
var known = []finding.Fact{
	stand.NoFootprint{}, stand.FallsOver{}, stand.EasilyKnocked{}, stand.TipsEasily{}, stand.HeldByAnchors{}, stand.NoLoads{},
	stand.Slides{}, stand.WithoutBallast{}, stand.TargetShort{}, stand.PushShort{}, stand.PushLowered{}, stand.AnchorsDecide{}, stand.PushTerm{},
	wind.NoWind{}, wind.LeastForce{}, wind.Lifted{}, wind.TooHigh{}, wind.GroundTerm{}, wind.CoefficientTerm{},
	strength.OverLimit{}, strength.Buckles{}, strength.PlateBends{}, strength.AnchorTension{}, strength.AnchorShear{},
	strength.AnchorInteraction{}, strength.SlowSway{}, strength.ModeMissed{}, strength.Vibrates{}, strength.NothingPushed{},
	strength.NotPushed{}, strength.Aid{}, strength.NoHoles{}, strength.GroundUnknown{}, strength.NotSwung{}, strength.FreeToMove{},
	strength.Failed{}, strength.Unchecked{}, strength.Spot{}, strength.ModeShape{}, strength.PlateBending{}, strength.WallTerm{},
	strength.PlateForceTerm{}, strength.SharingTerm{},
	fab.RequirementFails{}, fab.RequirementUndecided{}, fab.StrengthNotChecked{}, fab.Heavy{}, fab.WholeHeavy{}, fab.Closed{}, fab.RainStands{},
	fab.ZincFumes{}, fab.ChromiumFumes{}, fab.DesignNote{}, fab.WeldEstimate{},
	fab.PeopleUnknown{}, fab.QuakeUnknown{}, fab.QuakeStrong{}, fab.IceUnknown{}, fab.LoadFails{}, fab.CopperFumes{}, fab.PaintFumes{}, fab.AnchorsCorrode{}, fab.Trapped{}, fab.TrapsUnknown{}, fab.WallGap{}, fab.Unjoined{}, fab.NoneHere{}, strength.PullOutOpen{},
	strength.SoilUnknown{}, strength.HoldOfStone{}, strength.SetUnknown{}, strength.SetFails{}, strength.SetInGround{}, stand.InGround{}, stand.OnWall{}, strength.NoFriction{}, strength.GripFails{}, strength.BedFails{},
	fab.NotWorkedOut{}, fab.NoPost{}, fab.Unread{}, fab.RestsOn{},
	calculation.Term(""), calculation.Assumption(""),
	assembly.ClosesLoop{}, assembly.Topples{}, assembly.UnlikeMetals{}, assembly.NoVents{}, assembly.Baked{}, assembly.NoDip{},
	assembly.ThinDip{}, assembly.CutBase{}, assembly.RollTube{}, assembly.CutTube{}, assembly.DishHalves{}, assembly.HaveBall{}, assembly.RollRings{},
	assembly.MakeGores{}, assembly.ThreadBall{}, assembly.SetOnBench{}, assembly.CloseRing{}, assembly.LayBase{}, assembly.StandUnit{}, assembly.SetUnit{},
	assembly.FinishAll{}, assembly.LoopWay{}, assembly.HoldIt{}, assembly.TipsThen{}, assembly.ClosesHollow{}, assembly.HeavyLift{},
	assembly.ZincOff{}, assembly.Care(0), assembly.TackRule{}, assembly.CleanRule{}, assembly.FillerRule{}, assembly.HollowRule{},
	assembly.RunsRule{}, assembly.HeavyPart{}, assembly.NotClosed{}, estimate.SheetsOf{}, estimate.CutToSize{}, estimate.LengthsOf{}, estimate.BoughtBall{},
	estimate.Item(0), estimate.Lacking{}, estimate.Outside(0), estimate.DressRule{}, estimate.HoursRule{}, estimate.RangeRule{}, estimate.NoPrices{},
	estimate.NoPlace{}, estimate.Unpriced{}, flat.SeamEdge{}, flat.PieceEdges{}, flat.RootGap{}, flat.GapOff{}, flat.Shrinks{},
	flat.SquareEnd{}, flat.FiledEnd{}, flat.CourseEnd{}, flat.CurvedEnd{}, flat.WrapTemplate{}, flat.SawnEnd{}, flat.CopedEnd{}, flat.Scallops{}, flat.FootBelow{}, flat.InConcrete{}, flat.Doubles{}, flat.HeadBeyond{}, flat.Dividers{},
	flat.StandsHere{}, flat.Arcs{}, flat.ConeRing{}, flat.RingPieces{}, flat.DishHalf{}, flat.DishEgg{}, flat.TrimHalf{},
	flat.FlatCap{}, flat.DishCap{}, flat.Slivers{}, flat.Sided{}, flat.PoleDisc{}, flat.RaiseGore{}, flat.Stretches{}, flat.BluntTips{},
	flat.OpenedFor{}, flat.UnequalEnds{}, flat.SeamGaps{}, flat.Groove{}, flat.SitsIn{}, flat.DrillVent{}, flat.DrillAt{}, flat.Care(0), flat.NarrowGores{}, flat.SeamsMeet{}, flat.CapsGone{}, flat.FillsUp{}, flat.DishBowl{}, flat.TrimBowl{}, flat.GrindRim{}, flat.HoldsRain{}, flat.BuildPoint{}, flat.SharpPoint{}, flat.CutByHand{}, flat.OpenHead{},
	flat.Overhangs{}, flat.SeamUnder{}, flat.NoVent{}, flat.ThickDisc{}, flat.NotDeveloped{}, rolling.NoRolls{},
	flat.Pierced{}, flat.DrilledThrough{}, flat.DrillByHand{}, flat.HolesOnSeams{}, flat.HolesBesideSeams{},
	rolling.RollsClash{}, rolling.NoSettings{}, rolling.NoTurns{}, rolling.NoRating{}, rolling.Refused{}, rolling.NotSound{},
	rolling.TooTight{}, rolling.BeyondReach{}, rolling.TooShort{}, rolling.TooSteep{}, rolling.TooLong{}, rolling.TooThick{},
	rolling.Overload{}, rolling.Split{}, rolling.Thinner{}, rolling.OverStake{}, rolling.OverPipe{}, rolling.OverCone{},
	rolling.Folds{}, rolling.BuyPipe{}, rolling.BuyRolled{}, rolling.Bows{}, rolling.Tight{}, rolling.ShortRun{},
	rolling.Care(0), rolling.RunsOff{}, rolling.FlatEnds{}, rolling.Notches{}, rolling.TryFirst{}, rolling.CloseIt{},
	rolling.BitesOf{}, rolling.HoldBack{}, rolling.Slant{}, rolling.DomeIt{}, rolling.DishIt{}, rolling.EggIt{}, sheets.ForCutter{},
	sheets.ForLongCut{}, sheets.NoSheet{}, sheets.NotLaidOut{}, sheets.TooThick{}, sheets.TooLarge{}, sheets.TooLong{}, saw.TooLong{},
	strength.WallBreaks{}, sheets.TooWide{}, sheets.TooFew{}, sheets.Narrow{}, shop.FilledUp{}, shop.Modest{}, shop.NotDescribed{},
}

// TestEveryFactHasWords parses all of fab: every type with a method Fact is in the
// list above, and each of those has a sentence in both systems of units.
func TestEveryFactHasWords(t *testing.T) {
	var declared []string
	constants := map[string][]string{} // the values of string constants, by type
	files := token.NewFileSet()
	require.NoError(t, filepath.WalkDir("../../fab", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(files, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		for _, decl := range file.Decls {
			switch d := decl.(type) {
			case *ast.FuncDecl:
				if d.Name.Name == "Fact" && d.Recv != nil {
					declared = append(declared, file.Name.Name+"."+d.Recv.List[0].Type.(*ast.Ident).Name)
				}
			case *ast.GenDecl:
				for _, spec := range d.Specs {
					if v, ok := spec.(*ast.ValueSpec); ok && d.Tok == token.CONST {
						for _, x := range v.Values {
							if lit, ok := x.(*ast.BasicLit); ok && lit.Kind == token.STRING && v.Type != nil {
								text, _ := strconv.Unquote(lit.Value)
								kind := nameOf(v.Type)
								constants[kind] = append(constants[kind], text)
							}
						}
					}
				}
			}
		}
		return nil
	}))
	var listed []string
	for _, f := range known {
		listed = append(listed, fmt.Sprintf("%T", f))
	}
	slices.Sort(declared)
	slices.Sort(listed)
	require.Equal(t, declared, listed, "facts of fab, and those with words")
	for _, units := range []quantity.System{quantity.Millimetre, quantity.Inch} {
		for _, f := range known {
			if _, term := f.(calculation.Term); term {
				continue
			}
			if _, assumption := f.(calculation.Assumption); assumption {
				continue
			}
			name := fmt.Sprintf("%T", f)
			if text := In(units).Fact(f); broken.MatchString(text) {
				t.Errorf("%s: %q of nothing", name, text)
			}
			full := reflect.New(reflect.TypeOf(f)).Elem()
			fill(full)
			wellWritten(t, name, In(units).Fact(full.Interface().(finding.Fact)))
		}
	}
	require.NotEmpty(t, constants["calculation.Term"])
	require.NotEmpty(t, constants["calculation.Assumption"])
	require.Len(t, terms, len(constants["calculation.Term"]))
	require.Len(t, assumptions, len(constants["calculation.Assumption"]))
	require.Len(t, gaps, len(constants["Gap"]))
	for _, text := range constants["calculation.Term"] {
		require.NotEmpty(t, In(quantity.Inch).Fact(calculation.Term(text)), text)
		wellWritten(t, text, terms[calculation.Term(text)])
	}
	for _, text := range constants["calculation.Assumption"] {
		require.NotEmpty(t, assumptions[calculation.Assumption(text)], text)
		wellWritten(t, text, assumptions[calculation.Assumption(text)])
	}
	for _, text := range constants["Gap"] {
		require.NotEmpty(t, gaps[strength.Gap(text)][0], text)
	}
	for _, text := range constants["GroundFigure"] {
		require.NotEmpty(t, groundTerms[wind.GroundFigure(text)], text)
	}
	for _, text := range constants["RuleKind"] {
		require.NotEmpty(t, In(quantity.Inch).Rule(wind.Rule{Kind: wind.RuleKind(text)}), text)
		require.NotEmpty(t, wind.Rule{Kind: wind.RuleKind(text)}.Source(), text)
	}
}

// nameOf returns the name of a type, with its package where it has one.
func nameOf(x ast.Expr) string {
	switch x := x.(type) {
	case *ast.Ident:
		return x.Name
	case *ast.SelectorExpr:
		return nameOf(x.X) + "." + x.Sel.Name
	}
	return ""
}

// fill sets all that a fact has to something.
func fill(v reflect.Value) {
	if v.Type() == reflect.TypeFor[check.Case]() {
		v.Set(reflect.ValueOf(check.Case{Kind: check.Push, Part: "mast"}))
		return
	}
	switch v.Type() {
	case reflect.TypeFor[strength.Gap]():
		v.SetString(string(strength.WallRidges))
		return
	case reflect.TypeFor[wind.RuleKind]():
		v.SetString(string(wind.ENSphere))
		return
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString("spur")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int:
		v.SetInt(3)
	case reflect.Float64:
		v.SetFloat(1.25)
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range v.Len() {
			fill(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i))
		}
	}
}

// broken is what fmt writes of a mistake, and figures that are none. badly is what no
// sentence has besides: stops that stand twice or at its end, where who prints it
// puts one.
var (
	broken = regexp.MustCompile(`%!|NaN|Inf`)
	badly  = regexp.MustCompile(`%!|NaN|Inf|[.,;:] ?[.,;:]|[.,;:]$|  `)
)

func wellWritten(t *testing.T, name, text string) {
	t.Helper()
	if at := badly.FindString(text); at != "" {
		t.Errorf("%s: %q has %q", name, text, at)
	}
}

package words

import (
	"stabile/fab/calculation"
	"stabile/fab/finding"
	"stabile/fab/stand"
	"stabile/fab/strength"
	"stabile/fab/wind"
)

// term returns the words of a term or an assumption of a calculation.
func (w Writer) term(f finding.Fact) (text string, ok bool) {
	switch f := f.(type) {
	case calculation.Term:
		return terms[f], true
	case calculation.Assumption:
		return assumptions[f], true
	case stand.PushTerm:
		return "overturning moment of a push F at the height h, from " + Count(f.Bearings, "bearing") + " and square to the edge", true
	}
	return "", false
}

var terms = map[calculation.Term]string{
	stand.TermLever:         "lever from the edge in to the centre of gravity",
	stand.TermRestoring:     "restoring moment of the weight W, ballast included",
	stand.TermSlopeMoment:   "overturning moment of the slope along the normal, the centre of gravity at the height z",
	stand.TermWindMoment:    "overturning moment of the wind from 72 bearings, alone and with the slope",
	stand.TermTippingFactor: "factor against tipping, the least of the cases",
	stand.TermFriction:      "friction, steel on concrete",
	stand.TermSlidingFactor: "factor against sliding",

	wind.TermBasicSpeedASCE: "basic wind speed, 3 s gust at 33 ft (10 m)",
	wind.TermTopographic:    "topographic factor, of hills",
	wind.TermElevation:      "ground elevation factor, sea level",
	wind.TermDirectionality: "directionality factor, round structures",
	wind.TermGust:           "gust factor, rigid structure (1 Hz or more)",
	wind.TermPressureASCE:   "velocity pressure at 15 ft (4.6 m) and below",
	wind.TermLeastPressure:  "least design pressure on the whole projected area, 16 lb/ft2 (0.77 kPa)",
	wind.TermBasicSpeedEN:   "basic wind velocity, mean of 10 min at 10 m (33 ft) in terrain II",
	wind.TermFrequency:      "lowest natural frequency",
	wind.TermBackground:     "background response",
	wind.TermResonance:      "resonant response",
	wind.TermPeakFactor:     "peak factor of the resonance",
	wind.TermGustFound:      "gust factor by the frequency",
	wind.TermDamping:        "damping, of structure and air",
	wind.TermTerrain:        "terrain factor",
	wind.TermRoughness:      "roughness factor at z_min and below",
	wind.TermOrography:      "orography factor, of hills",
	wind.TermMeanWind:       "mean wind velocity at z_min and below",
	wind.TermTurbulence:     "turbulence intensity at z_min and below",
	wind.TermDensity:        "density of air",
	wind.TermPeakPressure:   "peak velocity pressure at z_min and below",
	wind.TermStructural:     "structural factor, lower than 15 m (49 ft) (49 ft)",
	wind.TermConsequence:    "factor for the consequences of failure, risk 3 and 4",
	wind.TermForce:          "force on each part",

	strength.TermSafety:          "factor of safety on members",
	strength.TermNominalBending:  "nominal bending moment of a tube",
	strength.TermNominalCompress: "nominal compression of a tube",
	strength.TermElasticBuckling: "elastic buckling stress",
	strength.TermBucklingFactor:  "buckling factor of the frame under the greatest compressions of all cases at once",
	strength.TermAmplification:   "amplification of bending by the sway of the frame",
	strength.TermNominalShear:    "nominal shear",
	strength.TermNominalTwist:    "nominal torsion",
	strength.TermInteraction:     "interaction of all",
	strength.TermWeldLine:        "force on the line of a ring weld",
	strength.TermWeldAllowed:     "allowable stress on a weld's throat",
	strength.TermAnchorTension:   "tension in an anchor",
	strength.TermCriticalWind:    "wind in which a part vibrates",

	strength.TermDiameter:         "outside diameter",
	strength.TermWall:             "wall",
	strength.TermArea:             "area",
	strength.TermElastic:          "elastic modulus of the section",
	strength.TermPlastic:          "plastic modulus of the section",
	strength.TermModulus:          "modulus of elasticity",
	strength.TermYield:            "yield",
	strength.TermCompact:          "compact up to",
	strength.TermNoncompact:       "noncompact up to",
	strength.TermRuleEnds:         "the rule ends at",
	strength.TermAllowableBending: "allowable bending",
	strength.TermColumnStress:     "nominal stress of the column",
	strength.TermAllowableCompr:   "allowable compression",
	strength.TermAllowableTension: "allowable tension",
	strength.TermAllowableShear:   "allowable shear",
	strength.TermAllowableTwist:   "allowable torsion",
	strength.TermAxial:            "axial force, negative in compression",
	strength.TermShear:            "shear",
	strength.TermBending:          "bending",
	strength.TermTwist:            "twist",
	strength.TermOutsideStress:    "stress at the outside",
	strength.TermHolesHigh:        "height of the holes together",
	strength.TermShift:            "shift of the net section's centre",
	strength.TermStrips:           "bending of the strips between holes",
	strength.TermAllowableStrip:   "allowable stress of the strips",
	strength.TermUse:              "share of the limit used, at most 1",

	strength.TermLever:           "from the face of the post to the force",
	strength.TermSpread:          "width of the strip, a spread of 45 deg each way",
	strength.TermWidth:           "width of the strip on the plate, at the face of the post",
	strength.TermPlateMoment:     "moment at the face of the post",
	strength.TermAllowableMoment: "allowable moment",

	strength.TermLift:          "pull straight out of the wall, shared by all n anchors",
	strength.TermTension:       "greatest tension in an anchor",
	strength.TermEvenShear:     "greatest shear on one anchor, shared evenly",
	strength.TermTargetTension: "tension for the tipping target",
	strength.TermBolt:          "bolt, by its hole",
	strength.TermBoltTension:   "allowable tension of a bolt, A307 or 4.6",
	strength.TermBoltShear:     "allowable shear of a bolt's steel",
	strength.TermUseTension:    "share of the limit used in tension, at most 1",
	strength.TermUseShear:      "share of the limit used in shear",
	strength.TermUseBoth:       "share used, tension and shear in one case",
}

var assumptions = map[calculation.Assumption]string{
	stand.RigidOnFirmGround: "the whole is stiff and turns about one edge of its footprint at a time; the ground does not give; push, slope and wind act one at a time, and the wind with the slope",

	wind.SpeedAsGiven:    "the speed is used as given. Maps since ASCE 7-10 have it at strength level; the 0.6 for allowable stresses is not used",
	wind.RiskInSpeed:     "the risk category changes the wind through the map alone: the speed given is taken as the map's for the category of the site, 2 where it gives none, without another factor",
	wind.StacksForTubes:  "coefficients are the high ones of Fig. 29.4-1 for chimneys and tanks, which does not mention bare tubes and balls up in the air (not confirmed against the printed figure)",
	wind.DiscOnHead:      "the flat disc on a free head has the coefficient 2.0 of a long plate square to the flow (fluid mechanics, not ASCE 7)",
	wind.LeastForceTaken: "from some bearings or all the forces are under the least design force of ASCE 7, 16 lb/ft2 (0.77 kPa) on the projected area; tipping, sliding and strength take the greater",

	wind.BasicVelocity:     "the speed is used as the basic wind velocity v_b, direction and season factors being 1; forces are characteristic, without a partial factor",
	wind.NoEndEffect:       "the end effect factor of posts is 1 and the drop of a sphere's drag at high Reynolds numbers is not used: both are on the safe side, and the figures were not available",
	wind.LeaningAsCylinder: "a leaning post counts as a cylinder across the wind on its projected area",
	wind.DiscAndEdge:       "the flat disc on a free head has the coefficient 2.0 and a plate's edge 1.3 (not in EN 1991-1-4)",

	wind.FullTurbulence: "the hill's factor raises the pressure of the mean wind, and the turbulence with it, which is on the safe side",

	wind.NoShelter:  "no part shelters another: the areas of all are added up, which is on the safe side",
	wind.AlongWind:  "the force on each part acts along the wind on its projected area; the sideways force on a leaning post is left out",
	wind.LevelSite:  "the ground is level around the piece: a hill, a ridge or a gap between buildings makes the wind stronger, and needs hill in the site",
	wind.BesideWall: "the wall neither shelters the piece nor speeds up the wind on it, which is tried from all sides, out of the wall too: near a corner or the top of a building the wind is faster, and that is not in these figures",
	wind.StiffClear: "the piece carries no ice, banner or climber in the wind",

	strength.PerfectTubes:     "posts are tubes without dents, at most 1 % out of round, seams welded through; balls at their joints and a plate at its feet give as springs, other joints do not; the base does not lift",
	strength.ClampedBase:      "the frame is clamped to the ground: forces between posts that stand apart are those of a base held down",
	strength.WholeWind:        "the whole wind counts, without the 0.6 of ASCE 7 for allowable stresses",
	strength.FrameBuckling:    "a post's elastic buckling stress comes from the frame's own buckling factor under the greatest compressions of all cases at once, which is on the safe side",
	strength.RingWelds:        "a ring weld is a circle of the post's outside diameter, a fillet with a leg as thick as the thinner sheet",
	strength.SlopeWithLoad:    "the weight acts with the ground's slope along the wind or the push",
	strength.CarbonSteelRules: "the rules of AISC 360, for carbon steel, are used for other metals with their own yield and modulus; sheet hard by rolling or heat treatment (aluminium, copper alloys and stainless steel above their soft yield) counts as soft, as beside a weld",
	strength.OwnFrequency:     "a part that keeps still in the modes worked out vibrates at about the frequency of its own post with what it carries (Rayleigh's quotient, its weight laid sideways)",
	strength.NoFatigue:        "fatigue of welds is worked out for a steady wind alone",
	strength.AnchorsLeaveOut:  "prying, the bearing of bolts in the plate's holes, bolts that stand free under the plate, the give of the plate and of the anchors",
}

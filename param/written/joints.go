package written

// EveryJoint is the text of a design with one joint of every kind, a loop, two balls
// threaded on a post, and blanks of every kind.
const EveryJoint = `
sculpture "Every joint"
units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
finish bath { galvanize }
base pad { plate 700 by 600, metal slab, anchors 4, anchor_diameter 12, anchor_edge 40 }

post mast on pad { at (-150, 0), diameter 60, length 600, lean 3 deg toward 180 deg, metal skin }
ball moon on mast { diameter 220, gores 8, caps 60, vent 8, metal skin }
ball bead[1] around mast { height 200, diameter 120, gores 6, metal skin }
ball bead[2] around mast { height 420, diameter 100, halves, metal skin }
ball star on moon { diameter 90, offset 20 toward 90 deg, zones 5, metal skin }

post stout on pad { at (180, 0), diameter 90 to 60, length 500, metal skin }
post bent on stout { length 100, diameter 60, metal skin }
post upper on bent { length 250, lean 20 deg toward 0 deg, diameter 60, metal skin }
ball far on upper { diameter 180, gores 8, bend domed, metal skin }
post tie from moon to far { diameter 30, metal skin }
post twig on stout { at 300 toward 270 deg, diameter 25, length 180, lean 60 deg toward 270 deg, metal skin }
ball nut on twig { diameter 70, bought 0.4 kg }
ball pebble on pad { at (0, -200), diameter 120, halves, metal skin }
`

// A slice of bread on a table by a window. The command that runs this declares, in
// slice.inc, the slice's size (Wide, High, Thick, in millimetres), the camera, the
// light and the ground, and lays the relief and its colours beside it.
#version 3.7;
#include "slice.inc"

global_settings { assumed_gamma 1.0 max_trace_level 4 }

// The window: a bright pane to one side, its frame's bars left out, and the room's own
// dimmer light from everywhere else.
light_source {
  Window_At, Window_Light
  area_light Window_Across, Window_Up, 3, 3
  adaptive 0 jitter
}
light_source { <-Window_At.x*0.7, 420, -Window_At.z*0.7> Room_Light shadowless }
light_source { <0, 700, -60> Room_Light*1.1 shadowless }

camera {
  location Eye look_at Eye_On sky Eye_Sky
  right x*image_width/image_height up y
  angle Eye_Angle
}

// The slice: a relief with the colours of what each place is made of.
height_field {
  png "relief.png" smooth water_level 0.004
  translate <-0.5, 0, -0.5>
  scale <Wide, Thick, High>
  pigment { image_map { png "colour.png" gamma srgb interpolate 2 once } rotate 90*x translate <-0.5, 0, -0.5> scale <Wide, 1, High> }
  finish { ambient 0 diffuse 0.82 specular 0.05 roughness 0.05 emission 0.02 }
}

// What fell off while it was cut.
#macro Crumb(At, Size, Turn, Colour)
  blob {
    threshold 0.5
    sphere { 0, 0.62, 1 }
    sphere { <0.36, 0.06, 0.12>, 0.5, 1 }
    sphere { <-0.18, 0.1, 0.34>, 0.46, 1 }
    sphere { <0.05, 0.24, -0.28>, 0.42, 1 }
    pigment { granite scale 0.7 color_map { [0 rgb Colour*0.62] [0.6 rgb Colour] } }
    normal { bumps 0.9 scale 0.16 }
    finish { ambient 0 diffuse 0.85 }
    scale Size rotate Turn translate At + <0, Size*0.25, 0>
  }
#end
#macro Dust(At, Size)
  sphere { At + <0, Size*0.3, 0>, Size pigment { rgb <0.80, 0.77, 0.69> } finish { ambient 0 diffuse 0.9 } scale <1, 1, 1> }
#end
#macro Sesame(At, Turn)
  sphere { 0, 1
    scale <1.55, 0.5, 0.9>
    pigment { bozo scale 0.8 color_map { [0 rgb <0.62, 0.45, 0.24>] [1 rgb <0.78, 0.63, 0.40>] } }
    finish { ambient 0 diffuse 0.85 specular 0.12 roughness 0.05 }
    rotate Turn translate At
  }
#end
#include "crumbs.inc"

// The grounds.
#macro Planks(Pale, Dark, Gap)
  // Boards of their own grain, laid side by side and glued.
  #local I = -6;
  #while (I < 6)
    box { <-600, -20, I*Plank>, <600, 0, (I+1)*Plank - Gap>
      pigment {
        wood turbulence <0.03, 0.03, 0.0> octaves 3 omega 0.5
        scale <6, 6, 60>
        color_map { [0 rgb Pale] [0.55 rgb Pale*0.9] [0.86 rgb Dark] [0.9 rgb Dark] [1 rgb Pale*0.96] }
        scale <1, 1, 1> rotate 90*y rotate <0, 0.8*sin(I*3), 0.9 + 0.5*sin(I*7)> translate <I*137, 31 + 13*sin(I*5), I*61>
      }
      normal { granite 0.10 scale <40, 2, 1.3> }
      finish { ambient 0 diffuse 0.78 specular 0.07 roughness 0.09 }
    }
    // Pores, fine and long.
    box { <-600, -0.01, I*Plank>, <600, 0.02, (I+1)*Plank - Gap>
      pigment {
        bumps turbulence 0.2 scale <16, 1, 0.42> translate <I*31, 0, I*17>
        color_map { [0 rgbt <0.10, 0.05, 0.02, 0.42>] [0.26 rgbt <0.2, 0.1, 0.05, 1>] [1 rgbt <1, 1, 1, 1>] }
      }
      finish { ambient 0 diffuse 0.8 }
    }
    #local I = I + 1;
  #end
  plane { y, -1.2 pigment { rgb Dark*0.25 } finish { ambient 0 } }
#end

#switch (Ground)
#case (0)
  #declare Plank = 66;
  union { Planks(<0.40, 0.235, 0.115>, <0.29, 0.16, 0.072>, 0.12) rotate Ground_Turn*y translate Ground_At }
  #break
#case (1)
  #declare Plank = 83;
  union { Planks(<0.20, 0.105, 0.052>, <0.105, 0.052, 0.026>, 0.12) rotate Ground_Turn*y translate Ground_At }
  #break
#case (2)
  plane { y, 0
    pigment { bozo scale 60 color_map { [0 rgb <0.235, 0.285, 0.335>] [1 rgb <0.275, 0.325, 0.375>] } }
    normal { average normal_map {
      [1 bumps 1.4 scale <52, 52, 210> rotate 32*y]
      [0.75 gradient x 0.8 sine_wave scale 0.62 turbulence 0.03]
      [0.75 gradient z 0.8 sine_wave scale 0.66 turbulence 0.03]
      [0.4 granite 0.35 scale 3]
    } }
    finish { ambient 0 diffuse 0.80 }
    rotate Ground_Turn*y translate Ground_At
  }
  #break
#case (3)
  plane { y, 0
    pigment { granite turbulence 0.4 scale <90, 90, 40> color_map { [0 rgb <0.030, 0.033, 0.038>] [0.6 rgb <0.055, 0.059, 0.066>] [1 rgb <0.095, 0.098, 0.10>] } }
    normal { average normal_map { [1 granite 0.32 scale 60] [1 bumps 0.18 scale 1.6] [0.6 wrinkles 0.6 scale <120, 30, 34>] } }
    finish { ambient 0 diffuse 0.85 specular 0.10 roughness 0.09 }
    rotate Ground_Turn*y translate Ground_At
  }
  #break
#else
  plane { y, 0
    pigment { bozo scale <160, 1, 90> color_map { [0 rgb <0.30, 0.31, 0.325>] [1 rgb <0.37, 0.38, 0.39>] } }
    normal { bumps 0.22 scale <120, 1, 0.35> }
    finish { ambient 0 diffuse 0.72 specular 0.28 roughness 0.045 }
    rotate Ground_Turn*y translate Ground_At
  }
#end

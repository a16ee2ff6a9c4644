// A jar in a room: glass that bends and mirrors light, dough with bubbles under it.
#version 3.7;
global_settings { assumed_gamma 1.0 max_trace_level 12 }
#ifndef (H) #declare H = 1.0; #end
#ifndef (DAY) #declare DAY = 1.0; #end
#ifndef (LAMP) #declare LAMP = 0.0; #end
camera { location <0, 3.6, -34> look_at <0, 4.2, 0> angle 19.5 right x*0.75 up y }
light_source { <-9, 14, -12> color rgb <1,1,1>*0.9*DAY }
light_source { <8, 9, -6> color rgb <1,0.85,0.6>*0.8*LAMP }
background { color rgb <0.5,0.55,0.6>*(0.3+0.5*DAY) }
plane { y, 0 pigment { wood turbulence 0.3 scale 2 color_map { [0 rgb <0.35,0.22,0.13>] [1 rgb <0.5,0.35,0.22>] } } finish { ambient 0.1*DAY diffuse 0.7 } }
plane { z, 9 pigment { checker rgb <0.62,0.64,0.6>, rgb <0.5,0.54,0.55> scale 2.3 } finish { ambient 0.15*DAY diffuse 0.6 } }
box { <-6.5,0,3>,<-3.4,4.5,5> pigment { rgb <0.55,0.15,0.12> } finish { ambient 0.1*DAY } }
cylinder { <5,0,3>,<5,5.6,3>,1.2 pigment { rgb <0.12,0.25,0.4> } finish { ambient 0.1*DAY } }
#declare R = 2.0;
difference {
  cylinder { <0,0.05,0>,<0,8.5,0>,R }
  cylinder { <0,0.25,0>,<0,9,0>,R-0.12 }
  pigment { rgbf <0.97,0.99,0.98,0.97> } finish { specular 0.7 roughness 0.002 reflection { 0.02, 0.25 fresnel on } ambient 0 diffuse 0.02 } interior { ior 1.5 }
}
#declare Top = 0.26+2.2*H;
#declare S = seed(7);
difference {
  union {
    cylinder { <0,0.26,0>,<0,Top-0.12,0>,R-0.13 }
    sphere { <0,0,0>,1 scale <R-0.13,0.24,R-0.13> translate y*(Top-0.12) }
  }
  #declare I = 0;
  #while (I < 260)
    #declare A = rand(S)*2*pi; #declare Y = rand(S); #declare Q = 0.05+0.13*rand(S)*sqrt(H);
    sphere { <(R-0.12)*cos(A), 0.3+(Top-0.6)*Y, (R-0.12)*sin(A)>, Q }
    #declare I = I+1;
  #end
  pigment { bozo scale 0.5 color_map { [0 rgb <0.83,0.74,0.58>] [1 rgb <0.9,0.83,0.7>] } }
  normal { bumps 0.4 scale 0.12 } finish { ambient 0.12*DAY+0.05*LAMP diffuse 0.75 }
}

"""The operator school: lessons and drills whose every figure the model computes at run time."""

grammar Aspects;
file : NAME* EOF ;
NAME : [a-z]+ ;
SPACE : [ \r\n\t]+ -> channel(HIDDEN) ;

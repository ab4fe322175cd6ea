BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0006');
CREATE TABLE blind_run (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	attributes VARCHAR NOT NULL, 
	codes VARCHAR NOT NULL, 
	orders VARCHAR NOT NULL, 
	seed INTEGER NOT NULL, 
	"after" VARCHAR, 
	CONSTRAINT pk_blind_run PRIMARY KEY (seq), 
	CONSTRAINT uq_blind_run_id UNIQUE (id), 
	CONSTRAINT fk_blind_run_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id), 
	CONSTRAINT fk_blind_run_after_reading FOREIGN KEY("after") REFERENCES reading (id)
);
INSERT INTO "blind_run" VALUES(1,'run','spring','2026-05-04T12:00:00.000000+00:00','["dents"]','[["bravo", "KT"], ["alfa", "VR"]]','[["KT", "VR"]]',4611686018427387904,'third');
CREATE TABLE change (
	seq INTEGER NOT NULL, 
	entity VARCHAR NOT NULL, 
	entity_id VARCHAR NOT NULL, 
	field VARCHAR NOT NULL, 
	old VARCHAR, 
	new VARCHAR, 
	at VARCHAR NOT NULL, 
	CONSTRAINT pk_change PRIMARY KEY (seq)
);
INSERT INTO "change" VALUES(1,'lineup','spring','question','?','Which is built more carefully?','2026-05-04T12:00:00.000000+00:00');
INSERT INTO "change" VALUES(2,'lineup','spring','conditions',NULL,'{"flow_l_min": 20.0, "oil_grade": "", "oil_v40": 90.5, "oil_v100": 14.25, "oil_density_kg_m3": 850.0, "oil_temperature_c": 80.0, "can_pressure_kpa": 700.0, "km_per_year": 15000.0}','2026-05-04T12:00:00.000000+00:00');
INSERT INTO "change" VALUES(3,'lineup','spring','balanced','0','1','2026-05-04T12:00:00.000000+00:00');
CREATE TABLE declaration (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	purpose VARCHAR, 
	digest VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	reason VARCHAR NOT NULL, 
	"after" VARCHAR, 
	after_cut BOOLEAN NOT NULL, 
	CONSTRAINT pk_declaration PRIMARY KEY (seq), 
	CONSTRAINT uq_declaration_id UNIQUE (id), 
	CONSTRAINT fk_declaration_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id), 
	CONSTRAINT fk_declaration_after_reading FOREIGN KEY("after") REFERENCES reading (id)
);
INSERT INTO "declaration" VALUES(1,'declared','spring','{"criteria":[{"anchors":[{"at":0.2,"value":2.0},{"at":0.7,"value":10.0}],"compared":true,"component":"can","kind":"piecewise","meaningful":0.05,"meaningful_is_share":false,"ranks":[],"reason":"A thicker wall dents less.","source":"common practice, no source","subject":"can_wall","support":"opinion","unit":"millimeter","weight":2.0}],"key":"own_weights","label":"Your own weights","left_open":["media"],"open_share":0.3333333333333333,"reason":"Only proportions count.","source":"the reviewer''s own choice","support":"opinion","version":"","weights":[["can",3.0],["gasket",1.5]]}','6e8ed1b6c2033b3fdee8638802a203cdab93f1fa97ed45e7065ed2b787ce5ffa','2026-05-04T12:00:00.000000+00:00','asked by viewers',NULL,0);
INSERT INTO "declaration" VALUES(2,'given up','spring',NULL,'','2026-05-04T12:00:00.000000+00:00','asked by viewers','third',1);
CREATE TABLE group_correction (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	instrument_id VARCHAR NOT NULL, 
	check_id VARCHAR NOT NULL, 
	remedy VARCHAR NOT NULL, 
	shift FLOAT NOT NULL, 
	reason VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	takes_back VARCHAR, 
	CONSTRAINT pk_group_correction PRIMARY KEY (seq), 
	CONSTRAINT uq_group_correction_id UNIQUE (id), 
	CONSTRAINT fk_group_correction_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id), 
	CONSTRAINT fk_group_correction_instrument_id_instrument FOREIGN KEY(instrument_id) REFERENCES instrument (id), 
	CONSTRAINT fk_group_correction_check_id_instrument_check FOREIGN KEY(check_id) REFERENCES instrument_check (id), 
	CONSTRAINT fk_group_correction_takes_back_group_correction FOREIGN KEY(takes_back) REFERENCES group_correction (id), 
	CONSTRAINT uq_group_correction_takes_back UNIQUE (takes_back)
);
INSERT INTO "group_correction" VALUES(1,'shift','spring','scale','off','shift',-0.3,'scale drifted','2026-05-04T12:00:00.000000+00:00',NULL);
CREATE TABLE instrument (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	unit VARCHAR NOT NULL, 
	resolution FLOAT NOT NULL, 
	permissible_error FLOAT NOT NULL, 
	contact_pressure_kpa FLOAT, 
	note VARCHAR NOT NULL, accuracy_class VARCHAR DEFAULT '' NOT NULL, verification_interval FLOAT DEFAULT '0' NOT NULL, 
	CONSTRAINT pk_instrument PRIMARY KEY (seq), 
	CONSTRAINT uq_instrument_id UNIQUE (id)
);
INSERT INTO "instrument" VALUES(1,'scale','bench scale','scale','gram',0.1,0.2,NULL,'','',0.0);
INSERT INTO "instrument" VALUES(2,'verified','verified scale','scale','gram',0.1,0.0,NULL,'','III',1.0);
INSERT INTO "instrument" VALUES(3,'stereo','stereo, 4x','microscope','micrometer',0.5,0.01,NULL,'','',0.0);
CREATE TABLE instrument_check (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	instrument_id VARCHAR NOT NULL, 
	moment VARCHAR NOT NULL, 
	known FLOAT NOT NULL, 
	tolerance FLOAT NOT NULL, 
	said_text VARCHAR NOT NULL, 
	said_value VARCHAR NOT NULL, 
	said_unit VARCHAR NOT NULL, 
	said_low VARCHAR, 
	said_high VARCHAR, 
	said_approximate BOOLEAN NOT NULL, 
	at VARCHAR NOT NULL, 
	session_s FLOAT NOT NULL, 
	"after" VARCHAR, 
	standard VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT pk_instrument_check PRIMARY KEY (seq), 
	CONSTRAINT uq_instrument_check_id UNIQUE (id), 
	CONSTRAINT fk_instrument_check_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id), 
	CONSTRAINT fk_instrument_check_instrument_id_instrument FOREIGN KEY(instrument_id) REFERENCES instrument (id), 
	CONSTRAINT fk_instrument_check_after_reading FOREIGN KEY("after") REFERENCES reading (id)
);
INSERT INTO "instrument_check" VALUES(1,'off','spring','scale','closing',100.0,0.005,'100.30 g','100.30','gram',NULL,NULL,0,'2026-05-04T12:00:00.000000+00:00',20.0,'second','check weight 100 g, class M1','');
CREATE TABLE lineup (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	question VARCHAR NOT NULL, 
	sequence VARCHAR NOT NULL, 
	rules VARCHAR NOT NULL, 
	created_at VARCHAR NOT NULL, 
	attributes VARCHAR NOT NULL, 
	reviewer VARCHAR NOT NULL, 
	rehearsal BOOLEAN NOT NULL, conditions VARCHAR, balanced BOOLEAN DEFAULT '0' NOT NULL, 
	CONSTRAINT pk_lineup PRIMARY KEY (seq), 
	CONSTRAINT uq_lineup_id UNIQUE (id)
);
INSERT INTO "lineup" VALUES(1,'spring','Spring pair','Which is built more carefully?','spin-on','plain','2026-05-04T12:00:00.000000+00:00','["mass", "can_height"]','',0,'{"flow_l_min": 20.0, "oil_grade": "", "oil_v40": 90.5, "oil_v100": 14.25, "oil_density_kg_m3": 850.0, "oil_temperature_c": 80.0, "can_pressure_kpa": 700.0, "km_per_year": 15000.0}',1);
CREATE TABLE meta (
	"key" VARCHAR NOT NULL, 
	value VARCHAR NOT NULL, 
	CONSTRAINT pk_meta PRIMARY KEY ("key")
);
INSERT INTO "meta" VALUES('app_version','0.1.0');
CREATE TABLE micrograph (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	specimen_id VARCHAR NOT NULL, 
	side VARCHAR NOT NULL, 
	field INTEGER NOT NULL, 
	set_up_id VARCHAR NOT NULL, 
	photo_id VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	supersedes VARCHAR, 
	withdrawn BOOLEAN NOT NULL, 
	CONSTRAINT pk_micrograph PRIMARY KEY (seq), 
	CONSTRAINT uq_micrograph_id UNIQUE (id), 
	CONSTRAINT uq_micrograph_supersedes UNIQUE (supersedes), 
	CONSTRAINT fk_micrograph_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id), 
	CONSTRAINT fk_micrograph_set_up_id_microscope_set_up FOREIGN KEY(set_up_id) REFERENCES microscope_set_up (id), 
	CONSTRAINT fk_micrograph_supersedes_micrograph FOREIGN KEY(supersedes) REFERENCES micrograph (id), 
	CONSTRAINT fk_micrograph_lineup_id_specimen FOREIGN KEY(lineup_id, specimen_id) REFERENCES specimen (lineup_id, id)
);
INSERT INTO "micrograph" VALUES(1,'dark','spring','alfa','inlet side',1,'stereo','d544aff298741c656aa0fc0a5527dd02126cbc5df1635ea07d078c6de5aadf8e','2026-05-04T12:00:00.000000+00:00',NULL,0);
INSERT INTO "micrograph" VALUES(2,'bright','spring','alfa','inlet side',1,'stereo','d544aff298741c656aa0fc0a5527dd02126cbc5df1635ea07d078c6de5aadf8e','2026-05-04T12:00:00.000000+00:00','dark',0);
INSERT INTO "micrograph" VALUES(3,'other','spring','alfa','inlet side',2,'stereo','d544aff298741c656aa0fc0a5527dd02126cbc5df1635ea07d078c6de5aadf8e','2026-05-04T12:00:00.000000+00:00',NULL,0);
INSERT INTO "micrograph" VALUES(4,'gone','spring','alfa','inlet side',2,'stereo','','2026-05-04T12:00:00.000000+00:00','other',1);
CREATE TABLE microscope_set_up (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	microscope VARCHAR NOT NULL, 
	objective VARCHAR NOT NULL, 
	light VARCHAR NOT NULL, 
	um_per_px FLOAT NOT NULL, 
	u_um_per_px FLOAT NOT NULL, 
	scale_from VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	width_px INTEGER NOT NULL, 
	height_px INTEGER NOT NULL, 
	division_um FLOAT NOT NULL, 
	division_u_um FLOAT NOT NULL, 
	scale_picture VARCHAR NOT NULL, 
	scale_media_type VARCHAR NOT NULL, 
	scale_notes VARCHAR NOT NULL, 
	edge_offset_px FLOAT, 
	reference_fibre VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	replaces VARCHAR, 
	CONSTRAINT pk_microscope_set_up PRIMARY KEY (seq), 
	CONSTRAINT uq_microscope_set_up_id UNIQUE (id), 
	CONSTRAINT fk_microscope_set_up_id_instrument FOREIGN KEY(id) REFERENCES instrument (id), 
	CONSTRAINT fk_microscope_set_up_replaces_microscope_set_up FOREIGN KEY(replaces) REFERENCES microscope_set_up (id)
);
INSERT INTO "microscope_set_up" VALUES(1,'stereo','stereo, 4x, light at the side','stereo','4x','above',0.5025,0.003,'stage micrometer','2026-05-04T12:00:00.000000+00:00',640,480,10.0,0.02,'f585bd73b766472a3d98d14a7446c43f7b68525a14700de7f1ffea7bda8b2505','image/jpeg','["2 lines between the first and the last were not found."]',-0.37,'nylon, 100 µm by calliper','ring light off',NULL);
CREATE TABLE moment (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	session_s FLOAT NOT NULL, 
	label VARCHAR NOT NULL, 
	CONSTRAINT pk_moment PRIMARY KEY (seq), 
	CONSTRAINT uq_moment_id UNIQUE (id), 
	CONSTRAINT fk_moment_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id)
);
INSERT INTO "moment" VALUES(1,'jump','spring','2026-05-04T12:00:00.000000+00:00',12.5,'the spring jumped out');
CREATE TABLE overruling (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	component VARCHAR NOT NULL, 
	kind VARCHAR, 
	winners VARCHAR NOT NULL, 
	reason VARCHAR NOT NULL, 
	CONSTRAINT pk_overruling PRIMARY KEY (seq), 
	CONSTRAINT uq_overruling_id UNIQUE (id), 
	CONSTRAINT fk_overruling_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id)
);
INSERT INTO "overruling" VALUES(1,'by hand','spring','2026-05-04T12:00:00.000000+00:00','can','winner','["bravo"]','dented in my hands');
INSERT INTO "overruling" VALUES(2,'taken back','spring','2026-05-04T12:00:00.000000+00:00','can',NULL,'[]','dented in my hands');
CREATE TABLE own_rules (
	seq INTEGER NOT NULL, 
	"key" VARCHAR NOT NULL, 
	version VARCHAR NOT NULL, 
	rules VARCHAR NOT NULL, 
	digest VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	CONSTRAINT pk_own_rules PRIMARY KEY (seq), 
	CONSTRAINT uq_own_rules_key_version UNIQUE ("key", version)
);
INSERT INTO "own_rules" VALUES(1,'own','1','{"entries":[{"anchors":[{"at":0.2,"value":2.0},{"at":0.7,"value":10.0}],"component":"can","kind":"piecewise","meaningful":0.05,"meaningful_is_share":false,"ranks":[],"reason":"A thicker wall dents less.","source":"common practice, no source","subject":"can_wall","support":"opinion","unit":"millimeter","weight":2.0}],"key":"own","label":"Own rules","meaningful_score":0.1,"smallest_coverage":0.5,"version":"1"}','2f8ddeac8f3dda37245dcb726c16fd9d7a73cfedc05a7c1bbb2cab4491ea6aa8','2026-05-04T12:00:00.000000+00:00');
CREATE TABLE photo (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	specimen_id VARCHAR, 
	station VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	media_type VARCHAR NOT NULL, 
	width INTEGER NOT NULL, 
	height INTEGER NOT NULL, 
	at VARCHAR NOT NULL, 
	caption VARCHAR NOT NULL, 
	CONSTRAINT pk_photo PRIMARY KEY (seq), 
	CONSTRAINT fk_photo_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id), 
	CONSTRAINT fk_photo_lineup_id_specimen_id_specimen FOREIGN KEY(lineup_id, specimen_id) REFERENCES specimen (lineup_id, id)
);
INSERT INTO "photo" VALUES(1,'d544aff298741c656aa0fc0a5527dd02126cbc5df1635ea07d078c6de5aadf8e','spring','alfa','outside','can.jpg','image/jpeg',640,480,'2026-05-04T12:00:00.000000+00:00','');
CREATE TABLE picture_answer (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	micrograph_id VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	method VARCHAR NOT NULL, 
	verdict VARCHAR NOT NULL, 
	light VARCHAR NOT NULL, 
	reasons VARCHAR NOT NULL, 
	warnings VARCHAR NOT NULL, 
	withheld VARCHAR NOT NULL, 
	gates VARCHAR NOT NULL, 
	figures VARCHAR NOT NULL, 
	fibres FLOAT NOT NULL, 
	edges_um VARCHAR NOT NULL, 
	shares VARCHAR NOT NULL, 
	readings VARCHAR NOT NULL, 
	CONSTRAINT pk_picture_answer PRIMARY KEY (seq), 
	CONSTRAINT uq_picture_answer_id UNIQUE (id), 
	CONSTRAINT fk_picture_answer_micrograph_id_micrograph FOREIGN KEY(micrograph_id) REFERENCES micrograph (id)
);
INSERT INTO "picture_answer" VALUES(1,'too dark','dark','2026-05-04T12:00:00.000000+00:00','covering circles, version 1','refused','above','["The picture is too dark: more light, or longer."]','[]','[]','[["brightness", 20.0, 45.0, "refused", "The picture is too dark: more light, or longer."]]','[]',0.0,'[]','[]','[]');
INSERT INTO "picture_answer" VALUES(2,'good','bright','2026-05-04T12:00:00.000000+00:00','covering circles, version 1','measured','above','[]','["The picture is a little soft."]','["About 12 fibres cross the field."]','[["sharpness", 2.5, 2.0, "warned", "The picture is a little soft."], ["layers", null, 1.2, "passed", ""]]','[["D50", 41.25, "um", 2.5, 1.1, 0.25], ["open area", 0.55, "1", 0.02, 0.023, 0.0]]',112.5,'[0.0, 5.0, 10.0]','[0.25, 0.75]','["d50"]');
INSERT INTO "picture_answer" VALUES(3,'also good','other','2026-05-04T12:00:00.000000+00:00','covering circles, version 1','measured','above','[]','["The picture is a little soft."]','["About 12 fibres cross the field."]','[["sharpness", 2.5, 2.0, "warned", "The picture is a little soft."], ["layers", null, 1.2, "passed", ""]]','[["D50", 41.25, "um", 2.5, 1.1, 0.25], ["open area", 0.55, "1", 0.02, 0.023, 0.0]]',112.5,'[0.0, 5.0, 10.0]','[0.25, 0.75]','["d50-2"]');
CREATE TABLE place (
	lineup_id VARCHAR NOT NULL, 
	station VARCHAR NOT NULL, 
	attribute VARCHAR NOT NULL, 
	specimen_id VARCHAR NOT NULL, 
	by_specimen BOOLEAN NOT NULL, 
	half_typed VARCHAR NOT NULL, 
	passed VARCHAR NOT NULL, 
	tools VARCHAR NOT NULL, 
	turn INTEGER NOT NULL, 
	CONSTRAINT pk_place PRIMARY KEY (lineup_id), 
	CONSTRAINT fk_place_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id)
);
INSERT INTO "place" VALUES('spring','weighing','mass','alfa',1,'28','["cut"]','[["scale", "scale"]]',1);
CREATE TABLE poll (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	question VARCHAR NOT NULL, 
	votes VARCHAR NOT NULL, 
	before_reveal BOOLEAN NOT NULL, 
	CONSTRAINT pk_poll PRIMARY KEY (seq), 
	CONSTRAINT uq_poll_id UNIQUE (id), 
	CONSTRAINT fk_poll_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id)
);
INSERT INTO "poll" VALUES(1,'channel','spring','2026-05-04T12:00:00.000000+00:00','Which would you buy?','[["alfa", 12], ["bravo", 30]]',1);
CREATE TABLE publication (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	revision INTEGER NOT NULL, 
	at VARCHAR NOT NULL, 
	digest VARCHAR NOT NULL, 
	reason VARCHAR NOT NULL, 
	record VARCHAR NOT NULL, 
	outputs VARCHAR NOT NULL, 
	CONSTRAINT pk_publication PRIMARY KEY (seq), 
	CONSTRAINT uq_publication_id UNIQUE (id), 
	CONSTRAINT uq_publication_lineup_id_revision UNIQUE (lineup_id, revision), 
	CONSTRAINT fk_publication_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id)
);
INSERT INTO "publication" VALUES(1,'published-1','spring',1,'2026-05-04T12:00:00.000000+00:00','d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1','','{"digest": "d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1", "readings": ["287.40 g"]}','[["cards/alfa.png", "cards", "5c3b0e6e8b0749f0a14e2827876962a08dc374f7a5420f351ac2596e34598a1e", 19], ["sheet.pdf", "sheet", "ee37514299159d556df009f8cc4abee231311a56f751b70a023453d9606b56f5", 25]]');
INSERT INTO "publication" VALUES(2,'published-2','spring',2,'2026-05-04T12:00:00.000000+00:00','d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1','a weight was misread','{"digest": "d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1d1", "readings": ["287.40 g"]}','[["sheet.pdf", "sheet", "7e4669ad94ab2254f5ec988952c712873e877690d6adbd63f33cdfbcbf56d833", 16]]');
CREATE TABLE reading (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	specimen_id VARCHAR NOT NULL, 
	attribute VARCHAR NOT NULL, 
	ordinal INTEGER NOT NULL, 
	state VARCHAR NOT NULL, 
	text VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	session_s FLOAT NOT NULL, 
	source VARCHAR NOT NULL, 
	said_text VARCHAR, 
	said_value VARCHAR, 
	said_unit VARCHAR, 
	said_low VARCHAR, 
	said_high VARCHAR, 
	said_approximate BOOLEAN, 
	word VARCHAR, 
	si_value FLOAT, 
	si_low FLOAT, 
	si_high FLOAT, 
	si_unit VARCHAR NOT NULL, 
	instrument_id VARCHAR, 
	raw BLOB, 
	reason VARCHAR NOT NULL, 
	supersedes VARCHAR, 
	withdrawn BOOLEAN NOT NULL, "group" VARCHAR CONSTRAINT fk_reading_group_group_correction REFERENCES group_correction (id), blind BOOLEAN DEFAULT '0' NOT NULL, 
	CONSTRAINT pk_reading PRIMARY KEY (seq), 
	CONSTRAINT uq_reading_id UNIQUE (id), 
	CONSTRAINT uq_reading_supersedes UNIQUE (supersedes), 
	CONSTRAINT fk_reading_lineup_id_specimen_id_specimen FOREIGN KEY(lineup_id, specimen_id) REFERENCES specimen (lineup_id, id), 
	CONSTRAINT fk_reading_instrument_id_instrument FOREIGN KEY(instrument_id) REFERENCES instrument (id), 
	CONSTRAINT fk_reading_supersedes_reading FOREIGN KEY(supersedes) REFERENCES reading (id)
);
INSERT INTO "reading" VALUES(1,'first','spring','alfa','mass',1,'measured','287.40 g','2026-05-04T12:00:00.000000+00:00',12.5,'scale','287.40 g','287.40','gram',NULL,NULL,0,NULL,0.2874,NULL,NULL,'kilogram','scale',X'53542C47532C2B30303238372E34302020670D0A','',NULL,0,NULL,0);
INSERT INTO "reading" VALUES(2,'second','spring','alfa','mass',1,'measured','287.40 g','2026-05-04T12:00:00.000000+00:00',12.5,'scale','287.40 g','287.40','gram',NULL,NULL,0,NULL,0.2874,NULL,NULL,'kilogram','scale',X'53542C47532C2B30303238372E34302020670D0A','misread','first',0,NULL,0);
INSERT INTO "reading" VALUES(3,'third','spring','alfa','mass',1,'measured','287.40 g','2026-05-04T12:00:00.000000+00:00',12.5,'scale','287.40 g','287.40','gram',NULL,NULL,0,NULL,0.2874,NULL,NULL,'kilogram','scale',X'53542C47532C2B30303238372E34302020670D0A','','second',0,'shift',0);
INSERT INTO "reading" VALUES(4,'fourth','spring','alfa','mass',2,'measured','287.40 g','2026-05-04T12:00:00.000000+00:00',12.5,'scale','287.40 g','287.40','gram',NULL,NULL,0,NULL,0.2874,NULL,NULL,'kilogram','scale',X'53542C47532C2B30303238372E34302020670D0A','',NULL,0,NULL,1);
INSERT INTO "reading" VALUES(5,'d50','spring','alfa','opening_d50_in',1,'measured','41.3 µm','2026-05-04T12:00:00.000000+00:00',90.0,'picture','41.3 µm','41.3','micrometer',NULL,NULL,0,NULL,4.13e-05,NULL,NULL,'meter','stereo',NULL,'',NULL,0,NULL,0);
INSERT INTO "reading" VALUES(6,'d50-2','spring','alfa','opening_d50_in',2,'measured','41.3 µm','2026-05-04T12:00:00.000000+00:00',90.0,'picture','41.3 µm','41.3','micrometer',NULL,NULL,0,NULL,4.13e-05,NULL,NULL,'meter','stereo',NULL,'',NULL,0,NULL,0);
INSERT INTO "reading" VALUES(7,'d50-2 back','spring','alfa','opening_d50_in',2,'measured','41.3 µm','2026-05-04T12:00:00.000000+00:00',90.0,'picture','41.3 µm','41.3','micrometer',NULL,NULL,0,NULL,4.13e-05,NULL,NULL,'meter','stereo',NULL,'','d50-2',1,NULL,0);
CREATE TABLE remark (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	component VARCHAR NOT NULL, 
	specimen_id VARCHAR, 
	text VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	CONSTRAINT pk_remark PRIMARY KEY (seq), 
	CONSTRAINT uq_remark_id UNIQUE (id), 
	CONSTRAINT fk_remark_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id), 
	CONSTRAINT fk_remark_lineup_id_specimen_id_specimen FOREIGN KEY(lineup_id, specimen_id) REFERENCES specimen (lineup_id, id)
);
INSERT INTO "remark" VALUES(1,'dent','spring','can','alfa','dented at the seam','2026-05-04T12:00:00.000000+00:00');
CREATE TABLE reveal (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	run_id VARCHAR NOT NULL, 
	CONSTRAINT pk_reveal PRIMARY KEY (seq), 
	CONSTRAINT uq_reveal_id UNIQUE (id), 
	CONSTRAINT fk_reveal_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id), 
	CONSTRAINT fk_reveal_run_id_blind_run FOREIGN KEY(run_id) REFERENCES blind_run (id), 
	CONSTRAINT uq_reveal_run_id UNIQUE (run_id)
);
INSERT INTO "reveal" VALUES(1,'opened','spring','2026-05-04T12:00:00.000000+00:00','run');
CREATE TABLE rules_lock (
	seq INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	lineup_id VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	rules VARCHAR NOT NULL, 
	digest VARCHAR NOT NULL, 
	reason VARCHAR NOT NULL, 
	"after" VARCHAR, 
	after_cut BOOLEAN NOT NULL, 
	CONSTRAINT pk_rules_lock PRIMARY KEY (seq), 
	CONSTRAINT uq_rules_lock_id UNIQUE (id), 
	CONSTRAINT fk_rules_lock_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id), 
	CONSTRAINT fk_rules_lock_after_reading FOREIGN KEY("after") REFERENCES reading (id)
);
INSERT INTO "rules_lock" VALUES(1,'locked','spring','2026-05-04T12:00:00.000000+00:00','{"entries":[{"anchors":[{"at":0.2,"value":2.0},{"at":0.7,"value":10.0}],"component":"can","kind":"piecewise","meaningful":0.05,"meaningful_is_share":false,"ranks":[],"reason":"A thicker wall dents less.","source":"common practice, no source","subject":"can_wall","support":"opinion","unit":"millimeter","weight":2.0}],"key":"own","label":"Own rules","meaningful_score":0.1,"smallest_coverage":0.5,"version":"1"}','2f8ddeac8f3dda37245dcb726c16fd9d7a73cfedc05a7c1bbb2cab4491ea6aa8','',NULL,0);
INSERT INTO "rules_lock" VALUES(2,'changed','spring','2026-05-04T12:00:00.000000+00:00','{"entries":[{"anchors":[{"at":0.2,"value":2.0},{"at":0.7,"value":10.0}],"component":"can","kind":"piecewise","meaningful":0.05,"meaningful_is_share":false,"ranks":[],"reason":"A thicker wall dents less.","source":"common practice, no source","subject":"can_wall","support":"opinion","unit":"millimeter","weight":2.0}],"key":"own","label":"Own rules","meaningful_score":0.1,"smallest_coverage":0.5,"version":"1"}','2f8ddeac8f3dda37245dcb726c16fd9d7a73cfedc05a7c1bbb2cab4491ea6aa8','a wall was mistyped','third',1);
CREATE TABLE specimen (
	lineup_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	nickname VARCHAR NOT NULL, 
	shape VARCHAR NOT NULL, 
	colour VARCHAR NOT NULL, 
	maker VARCHAR NOT NULL, 
	part_number VARCHAR NOT NULL, 
	lot VARCHAR NOT NULL, 
	origin_box VARCHAR NOT NULL, 
	origin_can VARCHAR NOT NULL, 
	origin_inferred VARCHAR NOT NULL, 
	paid VARCHAR NOT NULL, 
	giver VARCHAR NOT NULL, 
	price VARCHAR, 
	currency VARCHAR NOT NULL, 
	bought_on VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT pk_specimen PRIMARY KEY (lineup_id, id), 
	CONSTRAINT fk_specimen_lineup_id_lineup FOREIGN KEY(lineup_id) REFERENCES lineup (id)
);
INSERT INTO "specimen" VALUES('spring','alfa',0,'Alfa','circle','#0072b2','','','L1','','','','bought by the reviewer','','9.90','','','');
INSERT INTO "specimen" VALUES('spring','bravo',1,'Bravo','square','#d55e00','','','','','','','not answered','',NULL,'','','');
CREATE INDEX ix_reading_lineup_id ON reading (lineup_id);
CREATE INDEX ix_photo_id ON photo (id);
CREATE INDEX ix_photo_lineup_id ON photo (lineup_id);
CREATE INDEX ix_moment_lineup_id ON moment (lineup_id);
CREATE INDEX ix_remark_lineup_id ON remark (lineup_id);
CREATE INDEX ix_change_entity_entity_id ON change (entity, entity_id);
CREATE TRIGGER reading_refuses_update BEFORE UPDATE ON reading BEGIN SELECT RAISE(ABORT, 'reading: an entry is never changed'); END;
CREATE TRIGGER reading_refuses_delete BEFORE DELETE ON reading BEGIN SELECT RAISE(ABORT, 'reading: an entry is never deleted'); END;
CREATE TRIGGER remark_refuses_update BEFORE UPDATE ON remark BEGIN SELECT RAISE(ABORT, 'remark: an entry is never changed'); END;
CREATE TRIGGER remark_refuses_delete BEFORE DELETE ON remark BEGIN SELECT RAISE(ABORT, 'remark: an entry is never deleted'); END;
CREATE TRIGGER change_refuses_update BEFORE UPDATE ON change BEGIN SELECT RAISE(ABORT, 'change: an entry is never changed'); END;
CREATE TRIGGER change_refuses_delete BEFORE DELETE ON change BEGIN SELECT RAISE(ABORT, 'change: an entry is never deleted'); END;
CREATE TRIGGER reading_refuses_replace BEFORE INSERT ON reading WHEN EXISTS (SELECT 1 FROM reading WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'reading: this id is already used'); END;
CREATE TRIGGER remark_refuses_replace BEFORE INSERT ON remark WHEN EXISTS (SELECT 1 FROM remark WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'remark: this id is already used'); END;
CREATE TRIGGER reading_refuses_second_correction BEFORE INSERT ON reading WHEN NEW.supersedes IS NOT NULL AND EXISTS (SELECT 1 FROM reading WHERE supersedes = NEW.supersedes) BEGIN SELECT RAISE(ABORT, 'reading: this reading has already been corrected'); END;
CREATE INDEX ix_instrument_check_lineup_id ON instrument_check (lineup_id);
CREATE TRIGGER instrument_check_refuses_update BEFORE UPDATE ON instrument_check BEGIN SELECT RAISE(ABORT, 'instrument_check: an entry is never changed'); END;
CREATE TRIGGER instrument_check_refuses_delete BEFORE DELETE ON instrument_check BEGIN SELECT RAISE(ABORT, 'instrument_check: an entry is never deleted'); END;
CREATE TRIGGER instrument_check_refuses_replace BEFORE INSERT ON instrument_check WHEN EXISTS (SELECT 1 FROM instrument_check WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'instrument_check: this id is already used'); END;
CREATE INDEX ix_group_correction_lineup_id ON group_correction (lineup_id);
CREATE TRIGGER group_correction_refuses_update BEFORE UPDATE ON group_correction BEGIN SELECT RAISE(ABORT, 'group_correction: an entry is never changed'); END;
CREATE TRIGGER group_correction_refuses_delete BEFORE DELETE ON group_correction BEGIN SELECT RAISE(ABORT, 'group_correction: an entry is never deleted'); END;
CREATE TRIGGER group_correction_refuses_replace BEFORE INSERT ON group_correction WHEN EXISTS (SELECT 1 FROM group_correction WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'group_correction: this id is already used'); END;
CREATE INDEX ix_rules_lock_lineup_id ON rules_lock (lineup_id);
CREATE TRIGGER rules_lock_refuses_replace BEFORE INSERT ON rules_lock WHEN EXISTS (SELECT 1 FROM rules_lock WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'rules_lock: this id is already used'); END;
CREATE INDEX ix_overruling_lineup_id ON overruling (lineup_id);
CREATE TRIGGER overruling_refuses_replace BEFORE INSERT ON overruling WHEN EXISTS (SELECT 1 FROM overruling WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'overruling: this id is already used'); END;
CREATE INDEX ix_blind_run_lineup_id ON blind_run (lineup_id);
CREATE TRIGGER blind_run_refuses_replace BEFORE INSERT ON blind_run WHEN EXISTS (SELECT 1 FROM blind_run WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'blind_run: this id is already used'); END;
CREATE INDEX ix_reveal_lineup_id ON reveal (lineup_id);
CREATE TRIGGER reveal_refuses_replace BEFORE INSERT ON reveal WHEN EXISTS (SELECT 1 FROM reveal WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'reveal: this id is already used'); END;
CREATE INDEX ix_poll_lineup_id ON poll (lineup_id);
CREATE TRIGGER poll_refuses_replace BEFORE INSERT ON poll WHEN EXISTS (SELECT 1 FROM poll WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'poll: this id is already used'); END;
CREATE TRIGGER own_rules_refuses_replace BEFORE INSERT ON own_rules WHEN EXISTS (SELECT 1 FROM own_rules WHERE ("key" = NEW."key" AND version = NEW.version) OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'own_rules: this id is already used'); END;
CREATE TRIGGER reveal_refuses_second BEFORE INSERT ON reveal WHEN EXISTS (SELECT 1 FROM reveal WHERE run_id = NEW.run_id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'reveal: this id is already used'); END;
CREATE TRIGGER rules_lock_refuses_update BEFORE UPDATE ON rules_lock BEGIN SELECT RAISE(ABORT, 'rules_lock: an entry is never changed'); END;
CREATE TRIGGER rules_lock_refuses_delete BEFORE DELETE ON rules_lock BEGIN SELECT RAISE(ABORT, 'rules_lock: an entry is never deleted'); END;
CREATE TRIGGER overruling_refuses_update BEFORE UPDATE ON overruling BEGIN SELECT RAISE(ABORT, 'overruling: an entry is never changed'); END;
CREATE TRIGGER overruling_refuses_delete BEFORE DELETE ON overruling BEGIN SELECT RAISE(ABORT, 'overruling: an entry is never deleted'); END;
CREATE TRIGGER blind_run_refuses_update BEFORE UPDATE ON blind_run BEGIN SELECT RAISE(ABORT, 'blind_run: an entry is never changed'); END;
CREATE TRIGGER blind_run_refuses_delete BEFORE DELETE ON blind_run BEGIN SELECT RAISE(ABORT, 'blind_run: an entry is never deleted'); END;
CREATE TRIGGER reveal_refuses_update BEFORE UPDATE ON reveal BEGIN SELECT RAISE(ABORT, 'reveal: an entry is never changed'); END;
CREATE TRIGGER reveal_refuses_delete BEFORE DELETE ON reveal BEGIN SELECT RAISE(ABORT, 'reveal: an entry is never deleted'); END;
CREATE TRIGGER poll_refuses_update BEFORE UPDATE ON poll BEGIN SELECT RAISE(ABORT, 'poll: an entry is never changed'); END;
CREATE TRIGGER poll_refuses_delete BEFORE DELETE ON poll BEGIN SELECT RAISE(ABORT, 'poll: an entry is never deleted'); END;
CREATE TRIGGER own_rules_refuses_update BEFORE UPDATE ON own_rules BEGIN SELECT RAISE(ABORT, 'own_rules: an entry is never changed'); END;
CREATE TRIGGER own_rules_refuses_delete BEFORE DELETE ON own_rules BEGIN SELECT RAISE(ABORT, 'own_rules: an entry is never deleted'); END;
CREATE INDEX ix_publication_lineup_id ON publication (lineup_id);
CREATE TRIGGER publication_refuses_replace BEFORE INSERT ON publication WHEN EXISTS (SELECT 1 FROM publication WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'publication: this id is already used'); END;
CREATE TRIGGER publication_refuses_second BEFORE INSERT ON publication WHEN EXISTS (SELECT 1 FROM publication WHERE (lineup_id = NEW.lineup_id AND revision = NEW.revision) OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'publication: this id is already used'); END;
CREATE TRIGGER publication_refuses_update BEFORE UPDATE ON publication BEGIN SELECT RAISE(ABORT, 'publication: an entry is never changed'); END;
CREATE TRIGGER publication_refuses_delete BEFORE DELETE ON publication BEGIN SELECT RAISE(ABORT, 'publication: an entry is never deleted'); END;
CREATE INDEX ix_declaration_lineup_id ON declaration (lineup_id);
CREATE TRIGGER declaration_refuses_update BEFORE UPDATE ON declaration BEGIN SELECT RAISE(ABORT, 'declaration: an entry is never changed'); END;
CREATE TRIGGER declaration_refuses_delete BEFORE DELETE ON declaration BEGIN SELECT RAISE(ABORT, 'declaration: an entry is never deleted'); END;
CREATE TRIGGER declaration_refuses_replace BEFORE INSERT ON declaration WHEN EXISTS (SELECT 1 FROM declaration WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'declaration: this id is already used'); END;
CREATE INDEX ix_micrograph_lineup_id ON micrograph (lineup_id);
CREATE INDEX ix_picture_answer_micrograph_id ON picture_answer (micrograph_id);
CREATE TRIGGER microscope_set_up_refuses_update BEFORE UPDATE ON microscope_set_up BEGIN SELECT RAISE(ABORT, 'microscope_set_up: an entry is never changed'); END;
CREATE TRIGGER microscope_set_up_refuses_delete BEFORE DELETE ON microscope_set_up BEGIN SELECT RAISE(ABORT, 'microscope_set_up: an entry is never deleted'); END;
CREATE TRIGGER microscope_set_up_refuses_replace BEFORE INSERT ON microscope_set_up WHEN EXISTS (SELECT 1 FROM microscope_set_up WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'microscope_set_up: this id is already used'); END;
CREATE TRIGGER micrograph_refuses_update BEFORE UPDATE ON micrograph BEGIN SELECT RAISE(ABORT, 'micrograph: an entry is never changed'); END;
CREATE TRIGGER micrograph_refuses_delete BEFORE DELETE ON micrograph BEGIN SELECT RAISE(ABORT, 'micrograph: an entry is never deleted'); END;
CREATE TRIGGER micrograph_refuses_replace BEFORE INSERT ON micrograph WHEN EXISTS (SELECT 1 FROM micrograph WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'micrograph: this id is already used'); END;
CREATE TRIGGER picture_answer_refuses_update BEFORE UPDATE ON picture_answer BEGIN SELECT RAISE(ABORT, 'picture_answer: an entry is never changed'); END;
CREATE TRIGGER picture_answer_refuses_delete BEFORE DELETE ON picture_answer BEGIN SELECT RAISE(ABORT, 'picture_answer: an entry is never deleted'); END;
CREATE TRIGGER picture_answer_refuses_replace BEFORE INSERT ON picture_answer WHEN EXISTS (SELECT 1 FROM picture_answer WHERE id = NEW.id OR seq = NEW.seq) BEGIN SELECT RAISE(ABORT, 'picture_answer: this id is already used'); END;
CREATE TRIGGER micrograph_refuses_second_correction BEFORE INSERT ON micrograph WHEN NEW.supersedes IS NOT NULL AND EXISTS (SELECT 1 FROM micrograph WHERE supersedes = NEW.supersedes) BEGIN SELECT RAISE(ABORT, 'micrograph: this picture has already been replaced'); END;
COMMIT;
